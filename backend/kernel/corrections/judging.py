"""How good a set of clearances is.

Law: out is out: a clearance is judged by the limits to the nanometre, and the spread between stations counts as one
more thing that can be out. Nearness to the aim only settles ties between sets that are equally in.
"""
from __future__ import annotations


class Limits:
    """low, high, aim and level (the most spread between stations) in nm; each may be None."""

    def __init__(self, low: int | None, high: int | None, aim: int | None, level: int | None) -> None:
        self.low = low
        self.high = high
        self.level = level
        self.aim = aim
        if aim is None and low is not None and high is not None:
            self.aim = (low + high) // 2

    def excess(self, clearance: int) -> int:
        """How far past a limit this clearance is, in nm; 0 when it is in."""
        if self.low is not None and clearance < self.low:
            return self.low - clearance
        if self.high is not None and clearance > self.high:
            return clearance - self.high
        return 0

    def uneven(self, clearances: list) -> int:
        """How far the spread is past the level, in nm."""
        if self.level is None or not clearances:
            return 0
        return max(0, max(clearances) - min(clearances) - self.level)

    def out(self, clearances: list) -> list:
        """Numbers of the stations that are out or unpredicted."""
        return [at for at in range(len(clearances)) if clearances[at] is None or self.excess(clearances[at])]

    def shortfall(self, clearances: list) -> tuple:
        """(how many are out, total excess): (0, 0) is all in and level. An uneven set counts as one more out."""
        uneven = self.uneven(clearances)
        past = [self.excess(clearance) for clearance in clearances] + [uneven]
        return len([p for p in past if p]), sum(past)

    def finish(self, clearances: list) -> tuple:
        """(spread, largest deviation from the aim) in nm: what settles between two sets that are both in."""
        if not clearances:
            return 0, 0
        off = 0 if self.aim is None else max([abs(clearance - self.aim) for clearance in clearances])
        return max(clearances) - min(clearances), off
