"""A concession as the board and the sheet print it."""
from __future__ import annotations

from ..limits import limit_of
from .fit_view import amount, limit_range
from .lens import Lens


def concession_view(lens: Lens, c: dict) -> dict:
    spec = lens.procedure["fits"][c["fit"]]
    limit = limit_of(lens.build, spec["limit"], c["station"])
    asked = lens.name(c["event"].get("who"))
    reviewer = lens.name(c["reviewed"].get("who")) if c["reviewed"] else ""
    shown = lens.say("figure_not_read") if c["value"] is None else amount(lens, c["fit"], c["value"])
    return {"event": c["id"], "fit": c["fit"], "title": lens.spot_title("fits", c["fit"], c["station"]), "station": c["station"],
            "shown": shown, "limit": limit_range(lens, c["fit"], limit) if limit else "", "reason": c["reason"],
            "asked_by": asked, "granted_by": c["granted_by"], "reviewed_by": reviewer,
            "says": _says(lens, c, reviewer), "at": c["event"]["at"], "counts": c["counts"]}


def _says(lens: Lens, c: dict, reviewer: str) -> str:
    if reviewer:
        return lens.say("reviewed_by", who=reviewer)
    return lens.say("not_reviewed" if c["counts"] else "does_not_count")
