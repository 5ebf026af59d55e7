"""Checks of the whole build.

Law: a check takes a Lens and returns findings; it changes nothing. One check a file; their order is the list below.
"""
from __future__ import annotations

from . import choices_missing, concessions, contrary, film, gates, parts, readings_kept, spread, stale, torque_marks, unheld

CHECKS = (gates, unheld, spread, stale, contrary, torque_marks, choices_missing, parts, film, concessions, readings_kept)


def review(lens) -> list[dict]:
    """Every finding of every check, in the order of CHECKS."""
    return [finding for check in CHECKS for finding in check.findings(lens)]
