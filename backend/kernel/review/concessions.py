"""Every concession, with who asked, who granted and whether anybody else has looked at it."""
from __future__ import annotations

from ..view.concession_view import concession_view
from ..view.holds import step_of_fit
from ..view.lens import Lens
from .finding import LOOK, NOTE, finding


def findings(lens: Lens) -> list[dict]:
    out = []
    for c in lens.build.concessions:
        seen = concession_view(lens, c)
        says = (seen["title"] + " at " + seen["shown"] + " (limit " + seen["limit"] + ") was let through: “" + seen["reason"] + "”. Asked by "
                + seen["asked_by"] + ", granted by " + seen["granted_by"] + ", " + seen["says"] + ".")
        out.append(finding("concessions", NOTE if seen["reviewed_by"] else LOOK, says,
                           "A concession is a limit somebody decided to pass; it stays with the engine.",
                           "" if seen["reviewed_by"] else "Have somebody else review it.",
                           step_of_fit(lens.procedure, c["fit"]), c["fit"], c["station"]))
    return out
