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
        self.figures, self.costs, self.shut = figures, costs, shut
        self.rows, wide = len(figures), len(figures[0])
        entries = [(figures[row][part], row, part) for row in range(self.rows) for part in range(wide)
                   if figures[row][part] is not None]
        self.entries = merge_sort(entries, lambda entry: entry)
        table = [[shut] * wide for _ in range(self.rows)] + [[0] * wide for _ in range(wide - self.rows)]
        self.seating = Seating(table)
        self.lowest, self.next = 0, 0    # entries from lowest up to next are open

    def narrowest(self, below: int) -> tuple | None:
        """(spread, cost, parts) of the least spread at a cost under `below`, then the least cost; None when there is none."""
        best = None
        while self.lowest < len(self.entries):
            low = self.entries[self.lowest][0]
            reach = self._reach(low)
            if reach is None:
                break
            if best is None or self._open_to(reach) - low <= best[0]:
                best = self._narrowed(low, reach, below, best)
            self._raise()
        return best

    def _open_to(self, reach: int) -> int:
        """Where the window would end: what was opened for a lower start is needed for this one too."""
        return max(reach, self.entries[self.next - 1][0]) if self.next else reach

    def _narrowed(self, low: int, reach: int, below: int, best: tuple | None) -> tuple | None:
        """`best`, or what the window from `low` gives when that is better."""
        while True:
            self._open(reach)
            self.seating.settle()
            cost = self.seating.total()
            spread = self._open_to(reach) - low
            if cost < below:
                better = best is None or (spread, cost) < (best[0], best[1])
                return (spread, cost, self._parts()) if better else best
            if self.next == len(self.entries) or (best is not None and self.entries[self.next][0] - low > best[0]):
                return best
            reach = self.entries[self.next][0]

    def within(self, width: int, below: int) -> tuple | None:
        """(cost, parts) of the cheapest seating under `below` in any window so wide; None when there is none."""
        best = None
        while self.lowest < len(self.entries):
            low = self.entries[self.lowest][0]
            self._open(low + width)
            floor = self._floor(low, low + width)
            if floor is not None and floor < below:
                self.seating.settle()
                cost = self.seating.total()
                if cost < below:
                    below, best = cost, (cost, self._parts())
            self._raise()
        return best

    def _reach(self, low: int) -> int | None:
        """How high a window from `low` must go at least: every row needs a figure in it."""
        high = low
        for row in self.figures:
            above = [f for f in row if f is not None and f >= low]
            if not above:
                return None
            high = max(high, min(above))
        return high

    def _floor(self, low: int, high: int) -> int | None:
        """What a seating in this window costs at least."""
        floor = 0
        for row in range(self.rows):
            figures = self.figures[row]
            costs = [self.costs[row][part] for part in range(len(figures))
                     if figures[part] is not None and low <= figures[part] <= high]
            if not costs:
                return None
            floor += min(costs)
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
