"""The filing plan of ring gaps: the next cut at each ring, in turns of the filing tool."""
from __future__ import annotations

from ..corrections.rings import TURN, next_cut
from ..events import spot_of
from ..fits import fit_everywhere
from ..sorting import merge_sort
from .fit_view import amount
from .lens import Lens, capital, listed
from .offer import full, misfits_of, offer, offer_row


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
    """Readings and filings of one ring, oldest first, without what was struck through."""
    entries = [("read", r) for r in build.readings.get(spot, []) if not build.is_struck(r["event"])]
    entries = entries + [("filed", f) for f in build.filed.get(spot, []) if not build.is_struck(f["event"])]
    return merge_sort(entries, lambda entry: entry[1]["order"])


def _file(lens: Lens, spec: dict, plans: list[tuple], cuts: list[dict]) -> dict:
    fit, plan = plans[0]
    turns = plan["turns"]
    words = {"title": _title(lens, fit, turns), "says": _says(lens, spec, plan) + _others(plans), "basis": _basis(lens, spec, plan, cuts),
             "again": "Deburr the ends, square the ring in the bore, read the gap again. You can file more off; you can't put it back."}
    draft = {"type": "ring.filed", "body": {"point": spec["point"], "station": fit["station"], "turns": str(turns)}} if turns else None
    rows = [offer_row(lens, one, its["most"] if its["turns"] else None, True) for one, its in plans]
    cures = all([its["turns"] and its["least"] is not None and its["least"] >= (one["limit"]["low"] or 0) for one, its in plans])
    return offer(lens, "rings", spec["fit"], words, rows, draft, bool(cures))


def _title(lens: Lens, fit: dict, turns: int) -> str:
    at = lens.station_title(lens.procedure["fits"][fit["fit"]]["group"], fit["station"])
    return capital(at) + ": file " + _turns(turns) if at else "File " + _turns(turns)


def _turns(turns: int) -> str:
    return "less than a turn, by hand" if not turns else "one turn" if turns == 1 else str(turns) + " turns"


def _others(plans: list[tuple]) -> str:
    said = [fit["station"] + ": " + _turns(plan["turns"]) for fit, plan in plans[1:]]
    return " After that " + "; ".join(said) + "." if said else ""


def _says(lens: Lens, spec: dict, plan: dict) -> str:
    to_go = full(lens, spec["fit"], plan["to_go"]) + " to go. "
    if plan["first"]:
        return to_go + "A first cut, to learn what a turn takes off here; then read."
    if not plan["turns"]:
        return to_go + "A whole turn could pass the aim. A few strokes, then read."
    least, most = amount(lens, spec["fit"], plan["least"]), amount(lens, spec["fit"], plan["most"])
    return to_go + "That should read " + (most if least == most else least + " to " + most) + " and cannot pass the aim at your fastest rate so far."


def _basis(lens: Lens, spec: dict, plan: dict, cuts: list[dict]) -> str:
    if plan["first"]:
        return "No gain a turn is known yet. Common practice, no published source."
    rates = [cut["gain"] * TURN // cut["turns"] for cut in cuts if cut["gain"] > 0 and cut["turns"] > 0]
    return ("Worked out from " + ("the one cut" if len(rates) == 1 else "the " + str(len(rates)) + " cuts") + " read so far: at most "
            + full(lens, spec["fit"], max(rates)) + " a turn.")


def _over(lens: Lens, spec: dict, fits: list[dict]) -> dict:
    group = lens.procedure["fits"][spec["fit"]]["group"]
    where = " for " + lens.procedure["groups"][group]["title"] + " " + listed([fit["station"] for fit in fits]) if group else ""
    words = {"title": "No filing cures a gap that is too large", "again": "",
             "says": "Order rings with more to file off" + where + ", and fit them fresh.", "basis": "Worked out from the gaps just read."}
    return offer(lens, "none", spec["fit"], words, [offer_row(lens, fit, None, False) for fit in fits], None, False)
