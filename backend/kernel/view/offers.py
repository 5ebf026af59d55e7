"""Corrections worked out for a step, each with the event to append once it has been done at the engine."""
from __future__ import annotations

from .lens import Lens
from .offer_shells import shell_offers
from .offer_shims import shim_offers

_METHODS = {"shells": shell_offers, "shims": shim_offers}


def offers(lens: Lens, step: dict) -> list[dict]:
    """Offers of types.ts, best first; empty while there is nothing to correct."""
    return _METHODS[step["corrects"]["method"]](lens, step)
