"""Checks that something has disturbed since, and that must be done again."""
from __future__ import annotations

from ..order import statuses
from ..view.holds import again_words
from ..view.lens import Lens
from .finding import LOOK, finding
from .misfit import quoted


def findings(lens: Lens) -> list[dict]:
    out = []
    for row in statuses(lens.build):
        again = again_words(lens, row)
        if again:
            says = lens.say("stale_step", step=quoted(lens, lens.build.steps[row["id"]]), what=lens.listed(again))
            out.append(finding("stale", LOOK, says, lens.say("why_stale"), lens.say("cure_stale"), row["id"]))
    return out
