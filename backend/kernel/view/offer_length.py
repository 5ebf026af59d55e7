"""The nearest length to order, from the lengths wanted at each station."""
from __future__ import annotations

from ..corrections.length import lengths
from ..fits import fit_everywhere
from .lens import Lens, listed
from .offer import full, offer, offer_row, unread


def length_offers(lens: Lens, step: dict, spec: dict) -> list[dict]:
    """What to order; empty while a station waits to be read."""
    fits = fit_everywhere(lens.build, spec["fit"])
    if unread(fits):
        return []
    found = lengths([fit["value"] for fit in fits], spec["step"])
    rows = [offer_row(lens, fits[i], found["each"][i]["length"], True) for i in range(len(fits))]
    order = listed([(str(o["count"]) + " of " if len(fits) > 1 else "") + full(lens, spec["fit"], o["length"]) for o in found["order"]])
    words = {"title": "Order " + order, "says": _says(lens, spec, found), "again": "Read one again with the real part in before you order the rest.",
             "basis": "The nearest there is in steps of " + full(lens, spec["fit"], spec["step"]) + " to what each station wants."}
    return [offer(lens, "length", spec["fit"], words, rows, None, True)]


def _says(lens: Lens, spec: dict, found: dict) -> str:
    worst = max([abs(each["off"]) for each in found["each"]])
    out = "At most " + full(lens, spec["fit"], worst) + " from the wanted length. "
    if len(found["order"]) == 1:
        return out.strip()
    return out + "One length for all: " + full(lens, spec["fit"], found["one"]) + ", at most " + full(lens, spec["fit"], found["worst"]) + " off."
