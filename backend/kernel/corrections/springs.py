"""Stacks of locators, shims, retainers and locks that restore the installed height of valve springs.

Law: height with nothing in = height read + what is under the spring - what is given back over it, and that stands until
something else is changed. Every part serves one valve. Which set of stacks is best:
  1. the fewest valves out;
  2. the least sum of squared deviations from the wanted height;
  3. the fewest parts in the stacks;
  4. the fewest slots that change.
Only valves that are out are touched. The best set is found while the search stays within MOST_LOOKS and no valve has more
than MOST_STACKS stacks to choose from; past that, the best of those met.

Common practice, no published source.
"""
from __future__ import annotations

from ..sorting import merge_sort
from .spring_sharing import share
from .spring_stacks import nearest_stacks, offsets
from .within import excess, target

MOST_LOOKS = 1500   # stacks tried while sharing parts out
MOST_STACKS = 12    # for one valve that are in, and that are out, nearest first; its present one is always among them


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
    pool = _Pool(slots, [valves[i] for i in touched], shelf)
    options = [pool.options(valves[i]) for i in touched]
    now = [[o[4] for o in options[at]].index(_all_sizes(valves[touched[at]])) for at in range(len(touched))]
    chosen = share([slot["kind"] for slot in slots], pool.stock(), options, now, MOST_LOOKS)
    dealt = pool.deal([valves[i] for i in touched], chosen)
    stacks, heights = [_ids(valve) for valve in valves], [valve["height"] for valve in valves]
    for at in range(len(touched)):
        i = touched[at]
        stacks[i], heights[i] = dealt[at], _bare(valves[i], slots) + _effect(slots, chosen[at])
    return _answer(valves, stacks, heights, touched)


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


def _all_sizes(valve: dict) -> list:
    return [_sizes(parts) for parts in valve["fitted"]]


def _effect(slots: list, sizes: list) -> int:
    return sum([sum(sizes[at]) * (-1 if slots[at]["way"] == "down" else 1) for at in range(len(slots))])


def _bare(valve: dict, slots: list) -> int:
    return valve["height"] - _effect(slots, _all_sizes(valve))


class _Pool:
    """What there is to share out: what is in the valves that are out, and the shelf. Parts of one kind and size are alike."""

    def __init__(self, slots: list, valves: list, shelf: list) -> None:
        self.slots = slots
        self.ids: dict = {}      # {kind: {size: [ids]}}
        self.stacks: dict = {}   # what may be made for valves that hold alike
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

    def options(self, valve: dict) -> list:
        """The best stacks for a valve, best first, and the present one."""
        fitted, sizes, name = _all_sizes(valve), [], ""
        for at in range(len(self.slots)):
            there = merge_sort(list(self.ids.get(self.slots[at]["kind"], {})), lambda size: size)
            sizes.append(None if _frozen(valve["fitted"][at]) else there)
            name = name + ("frozen" if sizes[at] is None else str(fitted[at])) + "\n"
        if name not in self.stacks:
            self.stacks[name] = offsets(self.slots, fitted, sizes)
        return nearest_stacks(_bare(valve, self.slots), valve, self.stacks[name], fitted, MOST_STACKS)

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
