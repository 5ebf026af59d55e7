"""Bucket shims over all valves: what goes where, and what is left to buy."""
from __future__ import annotations

from ..corrections.buckets import shuffle
from ..fits import fit_everywhere
from .fit_view import amount
from .lens import Lens, capital, listed
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
    words = {"title": title, "says": _says(lens, spec, fits, valves, found), "basis": _basis(fits, valves), "again": _again(fits, found)}
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
        return "Nothing on hand cures it"
    bought = sum([b["count"] for b in found["buy"]])
    said = counted(len(found["moved"]), "valve changes its shim", "valves change shims")
    return said + (", " + str(bought) + " to buy" if bought else ", nothing to buy")


def _says(lens: Lens, spec: dict, fits: list[tuple], valves: list[dict], found: dict) -> str:
    slot = spec["slots"][0]
    moves, owner = [], {valves[i]["id"]: fits[i][1]["station"] for i in range(len(valves))}
    for i in found["moved"]:
        place = found["places"][i]
        name = place["id"]
        where = "new" if name is None else "from " + owner[name] if name in owner else "from the shelf"
        moves.append(fits[i][1]["station"] + " gets " + size_both(lens, slot, place["shim"]) + " " + where)
    out = capital("; ".join(moves)) + ". " if moves else ""
    if found["buy"]:
        out += "To buy: " + listed([str(b["count"]) + " of " + size_both(lens, slot, b["length"]) for b in found["buy"]]) + ". "
        out += "Add them to the shelf when they are here, and this says which goes where. "
    if found["out"]:
        stay = [fits[i][1]["station"] + " at " + amount(lens, fits[i][1]["fit"], found["places"][i]["lash"]) for i in found["out"]]
        out += "No shim of this step brings in " + listed(stay) + ": measure its shim, or seat and stem want work."
    return out.strip()


def _basis(fits: list[tuple], valves: list[dict]) -> str:
    unknown = [fits[i][1]["station"] for i in range(len(valves)) if valves[i]["shim"] is None]
    left = " The shim of " + listed(unknown) + " is not measured, so it stays." if unknown else ""
    return "Lash falls by what the shim grows; every shuffle of these shims was weighed." + left


def _again(fits: list[tuple], found: dict) -> str:
    stations = [fits[i][1]["station"] for i in found["moved"]]
    return "Turn the engine over twice, then read the lash of " + listed(stations) + " again." if stations else ""
