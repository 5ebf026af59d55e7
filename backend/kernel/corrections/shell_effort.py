"""The best that can be done where a few moves do not bring everything in, and cures that take many moves.

Law: fewest stations out, then least total excess, then fewest moves. The first AT_ONCE moves are certain: nothing within
them is missed, since a move that touches neither a station that is out nor an extreme one cannot help. From there on the
best is carried further where that takes one more in, so a long cure (a half from the shelf at every station) is
found, but is not proved the shortest. Dealing all pairs out anew counts when it takes more in than that.
"""
from __future__ import annotations

from .bench import Bench, Deal, present
from .judging import Limits
from .redeal import redeals
from .shell_search import after, extremes, merit, touching_any

AT_ONCE = 2  # moves looked ahead; each more multiplies the work by about a hundred


def best_effort(bench: Bench, limits: Limits) -> Deal:
    """The deal that comes furthest in; it may cure, and it may be the present one."""
    best = _look_ahead(present(bench), limits, AT_ONCE)
    further: Deal | None = best if best.moves else None
    while further is not None and best.shortfall(limits)[0]:
        further = _further(further, limits)
        if further is not None and further.shortfall(limits)[0] < best.shortfall(limits)[0]:
            best = further
    if not best.shortfall(limits)[0]:
        return best
    anew = present(bench)
    for deal in redeals(bench, limits):
        anew = better_of(anew, deal, limits)
    return anew if anew.shortfall(limits)[0] < best.shortfall(limits)[0] else best


def _further(deal: Deal, limits: Limits) -> Deal | None:
    """The best effort one move on; where one move is not predicted, AT_ONCE on if those take one more in. Else None."""
    step = _look_ahead(deal, limits, 1)
    if step.shortfall(limits) < deal.shortfall(limits):
        return step
    if all([way[4] is not None for way in touching_any(deal, _worth_touching(deal, limits))]):
        return None
    leap = _look_ahead(deal, limits, AT_ONCE)
    return leap if leap.shortfall(limits)[0] < deal.shortfall(limits)[0] else None


def better_of(a: Deal, b: Deal, limits: Limits) -> Deal:
    """The better effort of two; a deal with an unpredicted clearance is no effort at all."""
    if None in b.clearances:
        return a
    short_a, short_b = a.shortfall(limits), b.shortfall(limits)
    if short_a != short_b:
        return b if short_b < short_a else a
    return b if merit(b, limits) < merit(a, limits) else a


def _look_ahead(start: Deal, limits: Limits, moves: int) -> Deal:
    """The best effort within `moves` of `start`, which itself is returned when none is better."""
    best, edge = start, [start]
    for last in [False] * (moves - 1) + [True]:
        following: list = []  # in order of discovery, which the order of a dict would lose
        seen: dict = {}
        for deal in edge:
            past = _Past(deal, limits)
            for way in touching_any(deal, _worth_touching(deal, limits)):
                if past.may_reach(way, best):
                    best = better_of(best, deal.make(way), limits)
                if not last:
                    then = deal.make(way)
                    if then.place() not in seen:
                        seen[then.place()] = True
                        following.append(then)
        edge = following
    return best


class _Past:
    """How far each station of a deal is out, so that most moves can be dismissed by looking at the two they change."""

    def __init__(self, deal: Deal, limits: Limits) -> None:
        self.limits = limits
        self.past = [None if c is None else limits.excess(c) for c in deal.clearances]
        self.unknown = len([p for p in self.past if p is None])
        self.count = len([p for p in self.past if p])
        self.total = sum([p for p in self.past if p])
        self.clearances = deal.clearances

    def may_reach(self, way: tuple, best: Deal) -> bool:
        """Whether the deal this way leads to is fully predicted and falls no shorter than `best`."""
        count, total, unknown = self.count, self.total, self.unknown
        for at, clearance in ((way[1], way[4]), (way[2], way[5])):
            if at is None:
                continue
            if clearance is None:
                return False
            was, now = self.past[at], self.limits.excess(clearance)
            unknown -= was is None
            count += (1 if now else 0) - (1 if was else 0)
            total += now - (was or 0)
        least = best.shortfall(self.limits)
        if unknown or (count, total) > least:
            return False
        uneven = self.limits.uneven(after(self.clearances, way))
        return (count + 1, total + uneven) <= least if uneven else True


def _worth_touching(deal: Deal, limits: Limits) -> list:
    out = limits.out(deal.clearances)
    if None in deal.clearances or limits.level is None:
        return out
    return out + [at for at in extremes(deal.clearances) if at not in out]
