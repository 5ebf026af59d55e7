"""Finds the fewest moves of shell halves that bring every clearance in and level.

Law: a station that is out stays out until a move touches it. So every search step starts at a station that is out (or,
when all are in but uneven, at the tightest or the loosest). Nothing is lost by this: moves can be put in another order,
with the partners renamed, so that any chosen one of the stations they touch is touched first.

Up to CERTAIN moves the answer is the best there is, unless more than MOST_LOOKED deals were looked at.
"""
from __future__ import annotations

from ..sorting import merge_sort
from .bench import Bench, Deal, present
from .judging import Limits

CERTAIN = 3  # moves; each one is a cap off, a journal wiped and a station read again
MOST_LOOKED = 60000  # deals looked at in one search, so that a phone answers


def cures(bench: Bench, limits: Limits, certain: int = CERTAIN) -> list:
    """Deals that bring all in and level with the fewest moves, best first; empty when `certain` moves do not suffice."""
    start = present(bench)
    for moves in range(1, certain + 1):
        found: dict = {}
        _Search(limits, found).go(start, moves)
        if found:
            return _ranked(limits, list(found.values()))
    return []


def merit(deal: Deal, limits: Limits) -> tuple:
    """What settles between deals that come equally far in; least is best.

    Fewest moves, smallest spread, smallest deviation from the aim, lowest station numbers, fewest pairs parted, names.
    """
    return (len(deal.moves), limits.finish(deal.clearances), deal.changed(), deal.parted(), deal.uppers + deal.lowers)


def _ranked(limits: Limits, deals: list) -> list:
    return merge_sort(deals, lambda deal: merit(deal, limits))


class _Search:
    """One search to a fixed number of moves; `found` gathers the cures by placing."""

    def __init__(self, limits: Limits, found: dict) -> None:
        self.limits = limits
        self.found = found
        self.seen: dict = {}
        self.looked = 0

    def go(self, deal: Deal, left: int) -> None:
        out = self.limits.out(deal.clearances)
        if self.looked > MOST_LOOKED or self._hopeless(deal, out, left) or self._been(deal, left):
            return
        for way in _ways_on(deal, out, left):
            self.looked += 1
            if left > 1:
                self.go(deal.make(way), left - 1)
            elif self._mends(deal, out, way):
                cured = deal.make(way)
                self.found.setdefault(cured.place(), cured)

    def _hopeless(self, deal: Deal, out: list, left: int) -> bool:
        """A move changes two stations at most, and all that are not changed must be in and level with each other."""
        can_stay = len(deal.clearances) - len(out)
        if 2 * left < len(deal.clearances) and can_stay > 1 and self.limits.level is not None:
            inside = [clearance for at, clearance in enumerate(deal.clearances) if at not in out]
            can_stay = max([len([c for c in inside if start <= c <= start + self.limits.level]) for start in inside])
        return len(deal.clearances) - can_stay > 2 * left

    def _been(self, deal: Deal, left: int) -> bool:
        place = str(left) + "\n" + deal.place()
        been = place in self.seen
        self.seen[place] = True
        return been

    def _mends(self, deal: Deal, out: list, way: tuple) -> bool:
        """Whether this last move brings all in and level."""
        what, at, other, part, here, there = way
        limits = self.limits
        if here is None or limits.excess(here) or (other is not None and (there is None or limits.excess(there))):
            return False
        for station in out:
            if station != at and station != other:
                return False
        return limits.level is None or not limits.uneven(after(deal.clearances, way))


def after(clearances: list, way: tuple) -> list:
    """The clearances once this move is made."""
    then = list(clearances)
    then[way[1]] = way[4]
    if way[2] is not None:
        then[way[2]] = way[5]
    return then


def _ways_on(deal: Deal, out: list, left: int) -> list:
    if len(out) == 2 * left:
        # every move must mend two stations: the first of them with one of the others
        ways = []
        for partner in out[1:]:
            ways = ways + deal.ways(out[0], partner)
        return ways
    if out:
        return deal.ways(out[0])
    return touching_any(deal, extremes(deal.clearances))


def extremes(clearances: list) -> list:
    """Numbers of the tightest and the loosest station."""
    tight, loose = clearances.index(min(clearances)), clearances.index(max(clearances))
    return [tight] if tight == loose else [tight, loose]


def touching_any(deal: Deal, stations: list) -> list:
    """Every move that changes one of these station numbers."""
    ways = []
    for at in stations:
        ways = ways + deal.ways(at)
    return ways
