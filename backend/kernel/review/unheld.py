"""Every fit that is out of its limit though no step waits for it: it would otherwise pass unsaid."""
from __future__ import annotations

from ..view.lens import Lens
from .misfit import to_look_at


def findings(lens: Lens) -> list[dict]:
    return to_look_at(lens, "unheld", lens.say("why_unheld"))
