"""Checks that something has disturbed since, and that must be done again."""
from __future__ import annotations

from ..order import statuses
from ..view.holds import again_words
from ..view.lens import Lens, listed
from .finding import LOOK, finding


def findings(lens: Lens) -> list[dict]:
    out = []
    for row in statuses(lens.build):
        again = again_words(lens, row)
        if again:
            out.append(finding("stale", LOOK, "“" + lens.build.steps[row["id"]]["title"] + "” must be done again: " + listed(again) + ".",
                               "Something it relied on was taken apart or exchanged after it was done.",
                               "Do these again; the earlier entries stay in the record.", row["id"]))
    return out
