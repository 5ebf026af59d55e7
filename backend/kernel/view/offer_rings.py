"""The filing plan of ring gaps: one offer a ring, the next cut in turns of the filing tool."""
from __future__ import annotations

from ..corrections.rings import TURN, next_cut
from ..events import spot_of
from ..fits import fit_everywhere
from ..sorting import merge_sort
from .fit_view import amount
from .lens import Lens
from .offer import full, misfits_of, offer, offer_row


def ring_offers(lens: Lens, step: dict, spec: dict) -> list[dict]:
    """The next cut at every ring whose gap is out; a ring just filed waits for its reading."""
    cuts = cuts_so_far(lens.build, spec["point"])
    found = [(fit, next_cut(fit["value"], fit["limit"], cuts)) for fit in misfits_of(fit_everywhere(lens.build, spec["fit"]))]
    file = [_file(lens, spec, fit, plan, cuts) for fit, plan in found if not plan["over"]]
    return file + [_over(lens, spec, fit) for fit, plan in found if plan["over"]]


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


def _file(lens: Lens, spec: dict, fit: dict, plan: dict, cuts: list[dict]) -> dict:
    turns = plan["turns"]
    words = {"title": _title(lens, fit, turns), "says": _says(lens, spec, plan), "basis": _basis(lens, spec, plan, cuts),
             "again": "Deburr the ends, square the ring in the bore, read the gap again. You can file more off; you can't put it back."}
    draft = {"type": "ring.filed", "body": {"point": spec["point"], "station": fit["station"], "turns": str(turns)}} if turns else None
    after = plan["most"] if turns else None
    limit = fit["limit"]
    cures = after is not None and plan["least"] >= (limit["low"] or 0)
    return offer(lens, "rings", spec["fit"], words, [offer_row(lens, fit, after, True)], draft, cures)


def _title(lens: Lens, fit: dict, turns: int) -> str:
    group = lens.procedure["fits"][fit["fit"]]["group"]
    at = lens.station_title(group, fit["station"])
    lead = at[:1].upper() + at[1:] + ": file " if at else "File "
    return lead + ("less than a turn, by hand" if not turns else "one turn" if turns == 1 else str(turns) + " turns")


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


def _over(lens: Lens, spec: dict, fit: dict) -> dict:
    words = {"title": "No filing cures a gap that is too large", "again": "",
             "says": "Order a ring with more to file off for " + (lens.station_title(lens.procedure["fits"][spec["fit"]]["group"], fit["station"])
                                                                 or "it") + ", and fit it fresh.",
             "basis": "Worked out from the gap just read."}
    return offer(lens, "none", spec["fit"], words, [offer_row(lens, fit, None, False)], None, False)
