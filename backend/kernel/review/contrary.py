"""Readings of one spot by people who did not know of each other's."""
from __future__ import annotations

from ..view.lens import Lens, listed
from ..view.overview import contrary
from .finding import HOLD, finding


def findings(lens: Lens) -> list[dict]:
    out = []
    for spot in contrary(lens):
        said = [r["shown"] + " (" + r["who"] + ")" for r in spot["readings"]]
        out.append(finding("contrary", HOLD, spot["title"] + " was read as " + listed(said) + ".",
                           "Neither knew of the other's reading, so neither can be relied on.",
                           "Measure again, or say which is right.", spot["step"], "", spot["spot"].partition("@")[2]))
    return out
