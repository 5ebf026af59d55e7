"""Spread of a fit between its stations: every station may be in, and the engine still not level."""
from __future__ import annotations

from ..view.lens import Lens
from .misfit import to_look_at


def findings(lens: Lens) -> list[dict]:
    return to_look_at(lens, "spread", lens.say("why_spread"))
