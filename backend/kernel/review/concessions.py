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
        parts = {name: seen[name] for name in ("title", "shown", "limit", "reason", "asked_by", "granted_by", "says")}
        out.append(finding("concessions", NOTE if seen["reviewed_by"] else LOOK, lens.say("let_through", **parts),
                           lens.say("why_concession"), "" if seen["reviewed_by"] else lens.say("cure_concession"),
                           step_of_fit(lens.procedure, c["fit"]), c["fit"], c["station"]))
    return out
