"""The nearest length to order, from the lengths wanted at each station."""
from __future__ import annotations

from ..corrections.length import lengths
from ..fits import fit_everywhere
from .lens import Lens
from .offer import full, offer, offer_row, unread


def length_offers(lens: Lens, step: dict, spec: dict) -> list[dict]:
    """What to order; empty while a station waits to be read."""
    fits = fit_everywhere(lens.build, spec["fit"])
    if unread(fits):
        return []
    found = lengths([fit["value"] for fit in fits], spec["step"])
    rows = [offer_row(lens, fits[i], found["each"][i]["length"], True) for i in range(len(fits))]
    title = lens.say("length_title", fit=lens.procedure["fits"][spec["fit"]]["title"], what=_order(lens, spec, found, len(fits)))
    words = {"title": title, "says": _says(lens, spec, found), "again": lens.say("length_again"),
             "basis": lens.say("length_basis", step=full(lens, spec["fit"], spec["step"]))}
    return [offer(lens, "length", spec["fit"], words, rows, None, True)]


def _order(lens: Lens, spec: dict, found: dict, stations: int) -> str:
    """`7 of 7.800 in and 1 of 7.850 in`; a single figure stands for parts nobody has counted."""
    if stations == 1:
        return full(lens, spec["fit"], found["order"][0]["length"])
    return lens.listed([lens.say("offer_of", count=o["count"], what=full(lens, spec["fit"], o["length"])) for o in found["order"]])


def _says(lens: Lens, spec: dict, found: dict) -> str:
    worst = max([abs(each["off"]) for each in found["each"]])
    out = lens.say("length_worst", by=full(lens, spec["fit"], worst)) if worst else lens.say("length_exact")
    if len(found["order"]) == 1:
        return out
    return out + " " + lens.say("length_one", length=full(lens, spec["fit"], found["one"]), by=full(lens, spec["fit"], found["worst"]))
