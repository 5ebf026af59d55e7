"""Corrections worked out for a step, each with the event to append once it has been done at the engine."""
from __future__ import annotations

from ..order import corrections_of
from .lens import Lens
from .offer_buckets import bucket_offers
from .offer_cut import cut_offers
from .offer_length import length_offers
from .offer_match import match_offers
from .offer_rings import ring_offers
from .offer_shells import shell_offers
from .offer_shims import shim_offers
from .offer_springs import spring_offers
from .offer_swap import swap_offers
from .offer_turns import turn_offers

_METHODS = {
    "shells": shell_offers, "shims": shim_offers, "match": match_offers, "swap": swap_offers, "cut": cut_offers,
    "rings": ring_offers, "buckets": bucket_offers, "springs": spring_offers, "length": length_offers, "turns": turn_offers,
}


def offers(lens: Lens, step: dict) -> list[dict]:
    """Offers of types.ts: corrections that cure come first, otherwise they stand in the order of the procedure. That no cut
    would cure a fit is not spoken of where something else does."""
    cures, helps = [], []
    for record in corrections_of(step):
        found = _METHODS[record["method"]](lens, step, record)
        if found and found[0]["cures"]:
            cures = cures + found
        else:
            helps = helps + [(record["method"], one) for one in found]
    cured = [one["fit"] for one in cures]
    return cures + [one for method, one in helps if not (method == "cut" and one["kind"] == "none" and one["fit"] in cured)]
