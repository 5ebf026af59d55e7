"""Stacks of locators, shims, retainers and locks that restore the installed height of valve springs.

Law: height with nothing in = height read + what is under the spring - what is given back over it, and that stands until
something else is changed. Every part serves one valve. Which set of stacks is best:
  1. the fewest valves out;
  2. the least sum of squared deviations from the wanted height;
  3. the fewest parts in the stacks;
  4. the fewest slots that change.
Only valves that are out are touched. The best set is found while the search stays within MOST_LOOKS and there are no more
than MOST_STACKS to choose from (MOST_MADE for one valve); past that, the best of those met.

Common practice, no published source.
"""
from __future__ import annotations

from ..sorting import merge_sort
from .spring_fill import served
from .spring_sharing import share
from .spring_stacks import how_many, nearest_stacks, offsets
from .within import excess, target

MOST_LOOKS = 240   # stacks tried while sharing parts out
MOST_MADE = 150     # stacks for one valve; where more could be made, valves are served one after the other (spring_fill)
MOST_STACKS = 96   # to choose from over all valves: the best that are in, and a third as many that are out


def springs(valves: list, slots: list, shelf: list) -> dict:
    """Choose a stack for each valve that is out. Lengths in nm.

    valves  {height, low, high, aim, fitted}: `fitted` for each slot a list of {id, size}; size None where not measured
    slots   {way, many, kind}: "down" takes its size off the height, "up" gives it back; many: a stack of shims
    shelf   {id, size, kind}: loose parts, measured

    Returns {stacks, heights, out, changed, order, cures}: for each valve the ids by slot and the height they leave; the numbers
    of the valves that stay out and that change; for each that stays out {valve, by}: what to take off it yet (negative: give
    back) to come to the wanted height.
    """
    touched = [i for i in range(len(valves)) if excess(valves[i]["height"], valves[i])]
    fitted = [[_sizes(parts) for parts in valves[i]["fitted"]] for i in touched]
    pool = _Pool(slots, [valves[i] for i in touched], shelf)
    chosen = _chosen(pool, slots, [valves[i] for i in touched], fitted, shelf)
    dealt = pool.deal([valves[i] for i in touched], chosen)
    stacks, heights = [_ids(valve) for valve in valves], [valve["height"] for valve in valves]
    for at in range(len(touched)):
        i = touched[at]
        stacks[i], heights[i] = dealt[at], heights[i] - _effect(slots, fitted[at]) + _effect(slots, chosen[at])
    return _answer(valves, stacks, heights, touched)


def _chosen(pool: _Pool, slots: list, valves: list, fitted: list, shelf: list) -> list:
    """Sizes by slot for each valve: the best sharing-out, or, where parts are of too many sizes, one valve after the other."""
    frozen = [[_frozen(parts) for parts in valve["fitted"]] for valve in valves]
    rising = [pool.rising(at) for at in range(len(slots))]
    if any([how_many(slots, [[] if row[at] else rising[at] for at in range(len(slots))]) > MOST_MADE for row in frozen]):
        loose: dict = {}
        for part in shelf:
            here = loose.setdefault(part["kind"], {})
            here[part["size"]] = here.get(part["size"], 0) + 1
        return served(slots, valves, fitted, frozen, rising, loose)
    options = [pool.options(valves[at], fitted[at], len(valves)) for at in range(len(valves))]
    now = [[o[4] for o in options[at]].index(fitted[at]) for at in range(len(valves))]
    return share(pool.stock(), options, now, MOST_LOOKS)


def _answer(valves: list, stacks: list, heights: list, touched: list) -> dict:
    out = [i for i in touched if excess(heights[i], valves[i])]
    return {"stacks": stacks, "heights": heights, "out": out, "cures": not out,
            "changed": [i for i in touched if stacks[i] != _ids(valves[i])],
            "order": [{"valve": i, "by": heights[i] - target(valves[i])} for i in out]}


def _ids(valve: dict) -> list:
    return [[part["id"] for part in parts] for parts in valve["fitted"]]


def _frozen(parts: list) -> bool:
    """A part nobody measured: what it takes is in the height already, and it stays where it is."""
    return any([part["size"] is None for part in parts])


def _sizes(parts: list) -> list:
    return [] if _frozen(parts) else merge_sort([part["size"] for part in parts], lambda size: size)


def _effect(slots: list, sizes: list) -> int:
    return sum([sum(sizes[at]) * (-1 if slots[at]["way"] == "down" else 1) for at in range(len(slots))])


class _Pool:
    """What there is to share out: what is in the valves that are out, and the shelf. Parts of one kind and size are alike."""

    def __init__(self, slots: list, valves: list, shelf: list) -> None:
        self.slots = slots
        self.ids: dict = {}      # {kind: {size: [ids]}}
        self.stacks: dict = {}   # what may be made for valves that hold alike
        self.sorted: dict = {}   # {kind: [sizes]}, rising
        for valve in valves:
            for at in range(len(slots)):
                if not _frozen(valve["fitted"][at]):
                    for part in valve["fitted"][at]:
                        self._take_in(slots[at]["kind"], part)
        for part in merge_sort(shelf, lambda p: p["id"]):
            self._take_in(part["kind"], part)

    def _take_in(self, kind: str, part: dict) -> None:
        self.ids.setdefault(kind, {}).setdefault(part["size"], []).append(part["id"])

    def stock(self) -> dict:
        return {kind: {size: len(self.ids[kind][size]) for size in self.ids[kind]} for kind in self.ids}

    def options(self, valve: dict, fitted: list, valves: int) -> list:
        """The best stacks for one of so many valves, best first, and the present one."""
        frozen = [_frozen(parts) for parts in valve["fitted"]]
        name = str(fitted) + str(frozen)
        if name not in self.stacks:
            self.stacks[name] = offsets(self.slots, fitted, self.sizes(frozen))
        most = (MOST_STACKS // valves, max(3, MOST_STACKS // (3 * valves)))
        return nearest_stacks(valve["height"] - _effect(self.slots, fitted), valve, self.stacks[name], fitted, most)

    def sizes(self, frozen: list) -> list:
        """For each slot the sizes there are and how many; None where it stays as it is."""
        return [None if frozen[at] else [(size, len(self.ids[self.slots[at]["kind"]][size])) for size in self.rising(at)]
                for at in range(len(frozen))]

    def rising(self, at: int) -> list:
        """Every size for a slot, sorted once."""
        kind = self.slots[at]["kind"]
        if kind not in self.sorted:
            self.sorted[kind] = merge_sort(list(self.ids.get(kind, {})), lambda size: size)
        return self.sorted[kind]

    def deal(self, valves: list, chosen: list) -> list:
        """Ids by valve and slot: a valve keeps its own where the size stays, and takes the others in order."""
        left = {kind: {size: list(self.ids[kind][size]) for size in self.ids[kind]} for kind in self.ids}
        dealt = [[[] for _ in self.slots] for _ in valves]
        for keep in (True, False):
            for i in range(len(valves)):
                for at in range(len(self.slots)):
                    self._hand_out(valves[i]["fitted"][at], chosen[i][at], left.get(self.slots[at]["kind"], {}), dealt[i][at], keep)
        return dealt

    def _hand_out(self, fitted: list, sizes: list, left: dict, into: list, keep: bool) -> None:
        if _frozen(fitted):
            if keep:
                for part in fitted:
                    into.append(part["id"])
            return
        own = {part["id"]: part["size"] for part in fitted}
        wanted = list(sizes)
        for name in into:
            wanted.remove(own[name])
        for size in wanted:
            mine = [name for name in left[size] if name in own]
            if keep and mine:
                into.append(mine[0])
                left[size].remove(mine[0])
            elif not keep:
                into.append(left[size].pop(0))
