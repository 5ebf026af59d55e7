"""Seatings whose figures all lie in one window: the narrowest window there is, or the best seating in one of a given width.

Law: a window slides up over the figures. Only windows that every row could be in are looked into, and only those whose
cheapest conceivable seating would beat the best so far, so the work stays small and nothing better is passed over.
"""
from __future__ import annotations

from ..sorting import merge_sort
from .seating import Seating


class Windows:
    """`figures[row][part]` (None: may not sit there) with `costs` to match; a seating costs `shut` or more when it breaks the window."""

    def __init__(self, figures: list, costs: list, shut: int) -> None:
        self.costs, self.shut = costs, shut
        self.rows, wide = len(figures), len(figures[0])
        entries = [(figures[row][part], row, part) for row in range(self.rows) for part in range(wide)
                   if figures[row][part] is not None]
        self.entries = merge_sort(entries, lambda entry: entry)
        table = [[shut] * wide for _ in range(self.rows)] + [[0] * wide for _ in range(wide - self.rows)]
        self.seating = Seating(table)
        self.lowest, self.next = 0, 0    # entries from lowest up to next are open
        self.rising: list = [[] for _ in range(self.rows)]    # (figure, cost) of each row, rising
        for figure, row, part in self.entries:
            self.rising[row].append((figure, costs[row][part]))
        self.first = [0] * self.rows     # the first of each row that is not below the window

    def narrowest(self, below: int, at_most: int | None = None) -> tuple | None:
        """(spread, cost, parts) of the least spread at a cost under `below`, then the least cost; None when there is none
        (or none with a spread of `at_most`)."""
        best = None
        while self.lowest < len(self.entries):
            low = self.entries[self.lowest][0]
            reach = self._reach(low)
            if reach is None:
                break
            widest = at_most if best is None else best[0]
            if widest is None or self._open_to(reach) - low <= widest:
                best = self._narrowed(low, reach, below, best, widest)
            self._raise()
        return best

    def _open_to(self, reach: int) -> int:
        """Where the window would end: what was opened for a lower start is needed for this one too."""
        return max(reach, self.entries[self.next - 1][0]) if self.next else reach

    def _narrowed(self, low: int, reach: int, below: int, best: tuple | None, widest: int | None) -> tuple | None:
        """`best`, or what the window from `low` gives when that is better."""
        while True:
            self._open(reach)
            self.seating.settle()
            cost = self.seating.total()
            spread = self._open_to(reach) - low
            if cost < below:
                better = best is None or (spread, cost) < (best[0], best[1])
                return (spread, cost, self._parts()) if better else best
            if self.next == len(self.entries) or (widest is not None and self.entries[self.next][0] - low > widest):
                return best
            reach = self.entries[self.next][0]

    def within(self, width: int, below: int) -> tuple | None:
        """(cost, parts) of the cheapest seating under `below` in any window so wide; None when there is none."""
        best = None
        while self.lowest < len(self.entries):
            low = self.entries[self.lowest][0]
            reach = self._reach(low)
            if reach is None:
                break
            self._open(low + width)
            if reach <= low + width and self._floor(low + width) < below:
                self.seating.settle()
                cost = self.seating.total()
                if cost < below:
                    below, best = cost, (cost, self._parts())
            self._raise()
        return best

    def _reach(self, low: int) -> int | None:
        """How high a window from `low` must go at least: every row needs a figure in it. `low` never falls."""
        high = low
        for row in range(self.rows):
            rising, at = self.rising[row], self.first[row]
            while at < len(rising) and rising[at][0] < low:
                at += 1
            self.first[row] = at
            if at == len(rising):
                return None
            if rising[at][0] > high:
                high = rising[at][0]
        return high

    def _floor(self, high: int) -> int:
        """What a seating in the window up to `high` costs at least; every row has a figure in it."""
        floor = 0
        for row in range(self.rows):
            rising, at = self.rising[row], self.first[row]
            least = rising[at][1]
            while at < len(rising) and rising[at][0] <= high:
                if rising[at][1] < least:
                    least = rising[at][1]
                at += 1
            floor += least
        return floor

    def _open(self, high: int) -> None:
        while self.next < len(self.entries) and self.entries[self.next][0] <= high:
            _, row, part = self.entries[self.next]
            self.seating.set(row, part, self.costs[row][part])
            self.next += 1

    def _raise(self) -> None:
        """Shut the lowest figure."""
        low = self.entries[self.lowest][0]
        self._open(low)
        while self.lowest < len(self.entries) and self.entries[self.lowest][0] == low:
            _, row, part = self.entries[self.lowest]
            self.seating.set(row, part, self.shut)
            self.lowest += 1

    def _parts(self) -> list:
        return self.seating.part_of[:self.rows]
