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
    """Stretches of the limits no wider than the level: one from, one up to every clearance, one from the aim."""
    level = limits.level
    if level is None:
        return [limits]
    lows = [] if limits.aim is None else [limits.aim]
    for clearance in clearances:
        lows = lows + [clearance, clearance - level]
    return [_window(low, level, limits) for low in lows]


def _window(low: int, level: int, limits: Limits) -> Limits:
    """A window that starts at `low`, or as near to it as the limits allow."""
    if limits.high is not None:
        low = min(low, limits.high - level)
    if limits.low is not None:
        low = max(low, limits.low)
    high = low + level if limits.high is None else min(low + level, limits.high)
    aim = (low + high) // 2 if limits.aim is None else min(max(limits.aim, low), high)
    return Limits(low, high, aim, level)


def _change(clearance: int, window: Limits) -> int:
    """To the aim; where there is none (one limit only), just inside that limit."""
    past = window.excess(clearance)
    if not past:
        return 0
    if window.aim is not None:
        return clearance - window.aim
    return -past if window.low is not None and clearance < window.low else past
