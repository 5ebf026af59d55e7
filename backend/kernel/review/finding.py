"""The shape of a finding: what, where, how much, why it matters, what would cure it."""
from __future__ import annotations

HOLD, LOOK, NOTE = "hold", "look", "note"


def finding(check: str, level: str, says: str, why: str, cure: str, step: str = "", fit: str = "", station: str = "") -> dict:
    return {"check": check, "level": level, "step": step, "fit": fit, "station": station, "says": says, "why": why, "cure": cure}
