"""Bucket shims over all valves: what goes where, and what is left to buy."""
from __future__ import annotations

from ..corrections.buckets import shuffle
from ..fits import fit_everywhere
from .fit_view import amount
from .lens import Lens
from .offer import ENDS, counted, misfits_of, offer, offer_row, unread
from .offer_parts import put, puts_draft, shelf_of, size_of, size_both


def bucket_offers(lens: Lens, step: dict, spec: dict) -> list[dict]:
    """One offer a kind of shim. Empty while a lash waits to be read, and when all are in."""
    slots = lens.procedure["slots"]
    kinds: list[str] = []
    for slot in spec["slots"]:
        if slots[slot]["part"] not in kinds:
            kinds.append(slots[slot]["part"])
    out = []
    for kind in kinds:
        pairs = [(spec["fits"][i], spec["slots"][i]) for i in range(len(spec["slots"])) if slots[spec["slots"][i]]["part"] == kind]
        fits = [(slot, fit) for name, slot in pairs for fit in fit_everywhere(lens.build, name)]
        if misfits_of([fit for _, fit in fits]) and not unread([fit for _, fit in fits]):
            out.append(_offer(lens, step, spec, kind, fits))
    return out


def _offer(lens: Lens, step: dict, spec: dict, kind: str, fits: list[tuple]) -> dict:
    build = lens.build
    valves = [_valve(build, slot, fit) for slot, fit in fits]
    loose = [{"id": name, "shim": size_of(build, name)} for name in shelf_of(build, kind)]
    found = build.once(("buckets", step["id"], kind), lambda: shuffle(valves, loose, spec["step"]))
    rows = [offer_row(lens, fits[i][1], found["places"][i]["lash"], i in found["moved"]) for i in range(len(fits))]
    title = _title(lens, fits, found)
    words = {"title": title, "says": _says(lens, spec, fits, valves, found), "basis": _basis(lens, fits, valves),
             "again": _again(lens, fits, found)}
    puts = [put(fits[i][0], fits[i][1]["station"], [found["places"][i]["id"]]) for i in found["moved"]]
    draft = None if found["buy"] else puts_draft(puts, title)
    first = misfits_of([fit for _, fit in fits])[0]["fit"]
    return offer(lens, "buckets" if found["moved"] else "none", first, words, rows, draft, found["cures"] and not found["buy"])


def _valve(build, slot: str, fit: dict) -> dict:
    names = build.slot_parts(slot, fit["station"])
    limit = fit["limit"] or {}
    out = {end: limit.get(end) for end in ENDS}
    out.update({"lash": fit["value"], "id": names[0] if names else "none at " + slot + " " + fit["station"],
                "shim": size_of(build, names[0]) if len(names) == 1 else None})
    return out


def _title(lens: Lens, fits: list[tuple], found: dict) -> str:
    if not found["moved"]:
        return lens.say("offer_nothing")
    bought = sum([b["count"] for b in found["buy"]])
    change = counted(lens, len(found["moved"]), "buckets_one", "buckets_many")
    return lens.say("buckets_bought", change=change, n=bought) if bought else lens.say("buckets_free", change=change)


def _says(lens: Lens, spec: dict, fits: list[tuple], valves: list[dict], found: dict) -> str:
    slot = spec["slots"][0]
    moves = _moves(lens, slot, fits, valves, found)
    out = ["; ".join(moves) + "."] if moves else []
    if found["buy"]:
        wants = [lens.say("offer_of", count=b["count"], what=size_both(lens, slot, b["length"])) for b in found["buy"]]
        out = out + [lens.say("buckets_buy", what=lens.listed(wants)), lens.say("buckets_then")]
    if found["out"]:
        stay = [lens.say("buckets_out", at=fits[i][1]["station"], lash=amount(lens, fits[i][1]["fit"], found["places"][i]["lash"]))
                for i in found["out"]]
        out.append(lens.say("buckets_stays_out", what=lens.listed(stay)))
    return " ".join(out)


def _moves(lens: Lens, slot: str, fits: list[tuple], valves: list[dict], found: dict) -> list[str]:
    moves, owner = [], {valves[i]["id"]: fits[i][1]["station"] for i in range(len(valves))}
    for i in found["moved"]:
        name, at = found["places"][i]["id"], fits[i][1]["station"]
        size = size_both(lens, slot, found["places"][i]["shim"])
        if name in owner:
            moves.append(lens.say("buckets_from", at=at, size=size, other=owner[name]))
        else:
            moves.append(lens.say("buckets_new" if name is None else "buckets_loose", at=at, size=size))
    return moves


def _basis(lens: Lens, fits: list[tuple], valves: list[dict]) -> str:
    unknown = [fits[i][1]["station"] for i in range(len(valves)) if valves[i]["shim"] is None]
    left = " " + lens.say("buckets_unmeasured", at=lens.listed(unknown)) if unknown else ""
    return lens.say("buckets_basis") + left


def _again(lens: Lens, fits: list[tuple], found: dict) -> str:
    stations = [fits[i][1]["station"] for i in found["moved"]]
    return lens.say("buckets_again", at=lens.listed(stations)) if stations else ""
