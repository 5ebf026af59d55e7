"""Entries that are in the record and could not be used."""
from __future__ import annotations

from ..view.lens import Lens
from .finding import LOOK, NOTE, finding


def findings(lens: Lens) -> list[dict]:
    out = [finding("readings_kept", LOOK, flag["says"], "It was recorded and counts for nothing as it stands (entry " + flag["event"][-8:] + ").",
                   "Look at it and record it again if it was meant.") for flag in lens.build.flags]
    if lens.build.unknown:
        out.append(finding("readings_kept", NOTE, str(lens.build.unknown) + " entries come from a newer version of this app.",
                           "They are kept and not shown.", "Update the app."))
    return out
