"""Readings of one spot by people who did not know of each other's."""
from __future__ import annotations

from ..view.lens import Lens
from ..view.overview import contrary
from .finding import HOLD, finding


def findings(lens: Lens) -> list[dict]:
    out = []
    for spot in contrary(lens):
        said = [lens.say("shown_by", shown=r["shown"], who=r["who"]) for r in spot["readings"]]
        out.append(finding("contrary", HOLD, lens.say("read_as", title=spot["title"], readings=lens.listed(said)),
                           lens.say("why_contrary"), lens.say("cure_contrary"), spot["step"], "", spot["spot"].partition("@")[2]))
    return out
