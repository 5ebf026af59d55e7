"""Finds the fewest moves of shell halves that bring every clearance in and level.

Law: a station that is out stays out until a move touches it. So every search step starts at a station that is out (or,
when all are in but uneven, at the tightest or the loosest). Nothing is lost by this: moves can be put in another order,
with the partners renamed, so that any chosen one of the stations they touch is touched first.

Up to CERTAIN moves the answer is the best there is. Longer cures (many shelf halves, long rounds of exchanges) are built
up two moves at a time, and by the optimal assignment of whole pairs: good, but not proved the fewest.
"""
from __future__ import annotations

from ..sorting import merge_sort
from .bench import Bench, Deal, present
from .judging import Limits

CERTAIN = 3  # moves; each one is a cap off, a journal wiped and a station read again
AT_ONCE = 2  # moves looked ahead when not everything can be brought in
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


class _Search:
    """One search to a fixed number of moves; `found` gathers the cures by placing."""

    def __init__(self, limits: Limits, found: dict) -> None:
        self.limits = limits
        self.found = found
        self.seen: dict = {}
        self.looked = 0

    def go(self, deal: Deal, left: int) -> None:
        out = self.limits.out(deal.clearances)
        if not left:
            if not out and not self.limits.uneven(deal.clearances):
                self.found.setdefault(tuple(deal.uppers + deal.lowers), deal)
            return
        if len(out) > 2 * left or self.looked > MOST_LOOKED or self._been(deal, left):
            return
        for following in _ways_on(deal, out, left):
            self.looked += 1
            self.go(following, left - 1)

    def _been(self, deal: Deal, left: int) -> bool:
        place = (left, tuple(deal.uppers + deal.lowers))
        been = place in self.seen
        self.seen[place] = True
        return been


def _ways_on(deal: Deal, out: list, left: int) -> list:
    if len(out) == 2 * left:
        # every move must mend two stations: the first of them with one of the others
        ways = []
        for partner in out[1:]:
            ways = ways + deal.touching(out[0], partner)
        return ways
    if out:
        return deal.touching(out[0])
    return _touching_any(deal, _extremes(deal.clearances))


def _extremes(clearances: list) -> list:
    tight, loose = clearances.index(min(clearances)), clearances.index(max(clearances))
    return [tight] if tight == loose else [tight, loose]


def _touching_any(deal: Deal, stations: list) -> list:
    ways = []
    for at in stations:
        ways = ways + deal.touching(at)
    return ways


def best_effort(bench: Bench, limits: Limits) -> Deal:
    """The deal with the fewest stations out, then the least total excess, then the fewest moves.

    Certain to AT_ONCE moves, continued from the best while that helps; it may turn out to cure.
    """
    best = present(bench)
    while True:
        better = _look_ahead(best, limits)
        if limits.shortfall(better.clearances) >= limits.shortfall(best.clearances):
            return best
        best = better


def _look_ahead(start: Deal, limits: Limits) -> Deal:
    best, edge, seen = start, [start], {}
    for _ in range(AT_ONCE):
        following = []
        for deal in edge:
            for way in _touching_any(deal, _worth_touching(deal, limits)):
                place = tuple(way.uppers + way.lowers)
                if place in seen or len(seen) > MOST_LOOKED:
                    continue
                seen[place] = True
                following.append(way)
                best = better_of(best, way, limits)
        edge = following
    return best


def _worth_touching(deal: Deal, limits: Limits) -> list:
    out = limits.out(deal.clearances)
    if None in deal.clearances or limits.level is None:
        return out
    return out + [at for at in _extremes(deal.clearances) if at not in out]


def better_of(a: Deal, b: Deal, limits: Limits) -> Deal:
    """The better effort of two; a deal with an unpredicted clearance is no effort at all."""
    if None in b.clearances:
        return a
    short_a, short_b = limits.shortfall(a.clearances), limits.shortfall(b.clearances)
    if short_a != short_b:
        return b if short_b < short_a else a
    return b if merit(b, limits) < merit(a, limits) else a


def merit(deal: Deal, limits: Limits) -> tuple:
    """What settles between deals that come equally far in; least is best.

    Fewest moves, smallest spread, smallest deviation from the aim, lowest station numbers, fewest pairs parted, names.
    """
    return (len(deal.moves), limits.finish(deal.clearances), deal.changed(), deal.parted(), deal.uppers + deal.lowers)


def _ranked(limits: Limits, deals: list) -> list:
    return merge_sort(deals, lambda deal: merit(deal, limits))
