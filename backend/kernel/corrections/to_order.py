"""What would have to be ordered when the halves on hand cannot bring every station in.

Law: a thicker pair of walls closes the clearance by as much. Stations that can stay are left alone; the others are
brought to the aim, or as near to it as the level between stations allows.
"""
from __future__ import annotations

from .judging import Limits


def to_order(clearances: list, limits: Limits) -> list:
    """For each clearance in nm, by how much the sum of both walls must grow (negative: shrink); 0 where it may stay."""
    best, best_key = None, None
    for window in _windows(clearances, limits):
        changes = [_change(clearance, window) for clearance in clearances]
        key = (len([c for c in changes if c]), sum([abs(c) for c in changes]), changes)
        if best_key is None or key < best_key:
            best, best_key = changes, key
    return best or []


def _windows(clearances: list, limits: Limits) -> list:
    """Stretches of the limits no wider than the level."""
    if limits.level is None:
        return [limits]
    starts = []
    for clearance in clearances + ([] if limits.aim is None else [limits.aim]):
        starts = starts + [clearance, clearance - limits.level, clearance - limits.level // 2]
    return [_window(start, limits) for start in starts]


def _window(low: int, limits: Limits) -> Limits:
    if limits.high is not None:
        low = min(low, limits.high - limits.level)
    if limits.low is not None:
        low = max(low, limits.low)
    high = low + limits.level
    if limits.high is not None:
        high = min(high, limits.high)
    aim = (low + high) // 2 if limits.aim is None else min(max(limits.aim, low), high)
    return Limits(low, high, aim, limits.level)


def _change(clearance: int, window: Limits) -> int:
    if not window.excess(clearance):
        return 0
    if window.aim is not None:
        return clearance - window.aim
    return clearance - (window.low if window.high is None or clearance < window.high else window.high)
