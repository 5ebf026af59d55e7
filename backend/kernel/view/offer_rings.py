"""The filing plan of ring gaps: the next cut at each ring, in turns of the filing tool."""
from __future__ import annotations

from ..corrections.rings import TURN, next_cut
from ..events import spot_of
from ..fits import fit_everywhere
from ..sorting import merge_sort
from .fit_view import amount
from .lens import Lens, capital
from .offer import counted, full, misfits_of, offer, offer_row


def ring_offers(lens: Lens, step: dict, spec: dict) -> list[dict]:
    """The plan for every ring whose gap is out, the next one first; a ring just filed waits for its reading. Rings that are too
    far open are named apart."""
    cuts = cuts_so_far(lens.build, spec["point"])
    found = [(fit, next_cut(fit["value"], fit["limit"], cuts)) for fit in misfits_of(fit_everywhere(lens.build, spec["fit"]))]
    under = [pair for pair in found if not pair[1]["over"]]
    over = [fit for fit, plan in found if plan["over"]]
    return ([_file(lens, spec, under, cuts)] if under else []) + ([_over(lens, spec, over)] if over else [])


def cuts_so_far(build, point: str) -> list[dict]:
    """`{turns, gain}` of every cut at any station that has been read before and after, turns in thousandths."""
    out = []
    for station in build.stations(build.procedure["points"][point]["group"]):
        spot, before, turns = spot_of(point, station), None, 0
        for kind, entry in _history(build, spot):
            if kind == "filed":
                turns += entry["turns"]
                continue
            if before is not None and turns:
                out.append({"turns": turns, "gain": entry["value"] - before})
            before, turns = entry["value"], 0
    return out


def _history(build, spot: str) -> list[tuple]:
    """Readings and filings of one ring, oldest first; filings that were struck through are not kept by the fold."""
    entries = [("read", r) for r in build.readings.get(spot, []) if not build.is_struck(r["event"])]
    entries = entries + [("filed", f) for f in build.filed.get(spot, [])]
    return merge_sort(entries, lambda entry: entry[1]["order"])


def _file(lens: Lens, spec: dict, plans: list[tuple], cuts: list[dict]) -> dict:
    fit, plan = plans[0]
    turns = plan["turns"]
    words = {"title": _title(lens, fit, turns), "says": " ".join(_says(lens, spec, plan) + _others(lens, plans)),
             "basis": _basis(lens, spec, plan, cuts), "again": lens.say("rings_again")}
    draft = {"type": "ring.filed", "body": {"point": spec["point"], "station": fit["station"], "turns": str(turns)}} if turns else None
    rows = [offer_row(lens, one, its["most"] if its["turns"] else None, True) for one, its in plans]
    cures = all([its["turns"] and its["least"] is not None and its["least"] >= (one["limit"]["low"] or 0) for one, its in plans])
    return offer(lens, "rings", spec["fit"], words, rows, draft, bool(cures))


def _title(lens: Lens, fit: dict, turns: int) -> str:
    at = lens.station_title(lens.procedure["fits"][fit["fit"]]["group"], fit["station"])
    if not at:
        return lens.say("rings_title_alone", turns=_turns(lens, turns))
    return lens.say("rings_title", at=capital(at), turns=_turns(lens, turns))


def _turns(lens: Lens, turns: int) -> str:
    return counted(lens, turns, "rings_turn", "rings_turns") if turns else lens.say("rings_less")


def _others(lens: Lens, plans: list[tuple]) -> list[str]:
    said = [lens.say("rings_other", at=fit["station"], turns=_turns(lens, plan["turns"])) for fit, plan in plans[1:]]
    return [lens.say("rings_after", others="; ".join(said))] if said else []


def _says(lens: Lens, spec: dict, plan: dict) -> list[str]:
    to_go = lens.say("rings_to_go", by=full(lens, spec["fit"], plan["to_go"]))
    if plan["first"] or not plan["turns"]:
        return [to_go, lens.say("rings_first" if plan["first"] else "rings_near")]
    low, high = amount(lens, spec["fit"], plan["least"]), amount(lens, spec["fit"], plan["most"])
    return [to_go, lens.say("rings_reads", high=high) if low == high else lens.say("rings_reads_range", low=low, high=high)]


def _basis(lens: Lens, spec: dict, plan: dict, cuts: list[dict]) -> str:
    if plan["first"]:
        return lens.say("rings_first_basis")
    rates = [cut["gain"] * TURN // cut["turns"] for cut in cuts if cut["gain"] > 0 and cut["turns"] > 0]
    by = full(lens, spec["fit"], max(rates))
    return lens.say("rings_cut_basis", by=by) if len(rates) == 1 else lens.say("rings_cuts_basis", n=len(rates), by=by)


def _over(lens: Lens, spec: dict, fits: list[dict]) -> dict:
    group = lens.procedure["fits"][spec["fit"]]["group"]
    says = lens.say("rings_over_order")
    if group:
        where = lens.procedure["groups"][group]["title"] + " " + lens.listed([fit["station"] for fit in fits])
        says = lens.say("rings_over_order_at", where=where)
    words = {"title": lens.say("rings_over"), "again": "", "says": says, "basis": lens.say("rings_over_basis")}
    return offer(lens, "none", spec["fit"], words, [offer_row(lens, fit, None, False) for fit in fits], None, False)
