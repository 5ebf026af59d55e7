"""Stacks where parts of so many sizes lie about that not every stack can be looked at.

Law: valves are served one after the other, the furthest out first, from the shelf, from their own parts and from what came out
of those before them. At each one part is changed, and one slot, the filler (shims where there are any), makes up what is still
missing: with what it holds now, or with the one or two sizes that come nearest. Of more than FEW sizes for a slot the nearest
two are tried, and some spread over the others. So a phone looks at some hundred stacks a valve, whatever lies on the bench.
"""
from __future__ import annotations

from ..sorting import first_over, merge_sort
from .within import excess, off, target

FEW = 6


def served(slots: list, valves: list, fitted: list, frozen: list, rising: list, stock: dict) -> list:
    """The sizes by slot for each valve.

    valves  {height, low, high, aim}          fitted, frozen  for each valve its sizes by slot, and which slots stay as they are
    rising  for each slot every size there is, loose or fitted        stock  {kind: {size: how many}} of the loose parts; used up
    """
    chosen: list = list(fitted)
    for i in merge_sort(list(range(len(valves))), lambda i: -abs(off(valves[i]["height"], valves[i]))):
        _put(slots, stock, fitted[i], 1)
        sizes = [None if frozen[i][at] else _there(rising[at], stock.get(slots[at]["kind"], {})) for at in range(len(slots))]
        chosen[i] = _best(slots, valves[i], fitted[i], sizes, stock)
        _put(slots, stock, chosen[i], -1)
    return chosen


def _put(slots: list, stock: dict, stack: list, times: int) -> None:
    for at in range(len(slots)):
        here = stock.setdefault(slots[at]["kind"], {})
        for size in stack[at]:
            here[size] = here.get(size, 0) + times


def _there(rising: list, here: dict) -> list:
    return [(size, here[size]) for size in rising if here.get(size, 0) > 0]


def _best(slots: list, valve: dict, fitted: list, sizes: list, stock: dict) -> list:
    """The stack that is in, then nearest, then of the fewest parts, then with the fewest changes, then the first made."""
    bare = valve["height"] - _effect(slots, fitted, None)
    wanted = target(valve) - bare
    best, best_away = fitted, 0
    best_key: tuple = (2, 0, 0, 0)    # worse than any
    for effect, stack in filled(slots, fitted, sizes, wanted, _enough(valve)):
        away = abs(effect - wanted)
        if best_key[0] == 0 and away > best_away:
            continue
        key = (1 if excess(bare + effect, valve) else 0, abs(off(bare + effect, valve)), sum([len(part) for part in stack]),
               len([at for at in range(len(slots)) if stack[at] != fitted[at]]))
        if key < best_key and _is_there(slots, stock, stack):
            best, best_key, best_away = stack, key, away
    return best


def _enough(valve: dict) -> int:
    """Half the way from the wanted height to the nearer limit."""
    wanted = target(valve)
    return min([abs(valve[end] - wanted) for end in ("low", "high") if valve.get(end) is not None]) // 2


def _is_there(slots: list, stock: dict, stack: list) -> bool:
    """Whether there are parts for it: two slots may take parts of one kind."""
    _put(slots, stock, stack, -1)
    short = any([stock[slots[at]["kind"]][size] < 0 for at in range(len(slots)) for size in stack[at]])
    _put(slots, stock, stack, 1)
    return not short


def filled(slots: list, fitted: list, sizes: list, wanted: int, enough: int = 0) -> list:
    """(effect, sizes by slot) of every stack worth looking at, the present one first; arguments as for `spring_stacks.offsets`.

    wanted  the effect on the bare height that would leave the wanted one; within `enough` of it no second shim is looked for
    """
    filler = _filler(slots, sizes)
    sign = 0 if filler is None else -1 if slots[filler]["way"] == "down" else 1
    found = []
    for change in [None] + _changes(slots, fitted, sizes, wanted, filler):
        stack = list(fitted)
        if change is not None:
            stack[change[0]] = [change[1]]
        others = _effect(slots, stack, filler)
        if filler is None:
            found.append((others, stack))
            continue
        found.append((others + sign * sum(fitted[filler]), stack))
        for choice in _choices(slots[filler]["many"], sizes[filler], (wanted - others) * sign, enough):
            found.append((others + sign * sum(choice), stack[:filler] + [choice] + stack[filler + 1:]))
    return found


def _changes(slots: list, fitted: list, sizes: list, wanted: int, filler: int | None) -> list:
    """(slot, size) of every change of one part, but for the filler's."""
    found = []
    for at in range(len(slots)):
        if at != filler and not slots[at]["many"] and sizes[at]:
            sign = -1 if slots[at]["way"] == "down" else 1
            found = found + [(at, size) for size in _some(sizes[at], (wanted - _effect(slots, fitted, at)) * sign)]
    return found


def _some(sizes: list, need: int) -> list:
    """All sizes where they are few; else the nearest to `need` on both sides and every so manieth of the others."""
    if len(sizes) <= FEW:
        return [size for size, _ in sizes]
    near = [choice[0] for choice in _choices(False, sizes, need, 0)]
    step = -(-len(sizes) // (FEW // 2))
    return near + [sizes[at][0] for at in range(0, len(sizes), step) if sizes[at][0] not in near]


def _filler(slots: list, sizes: list) -> int | None:
    """The open slot that takes a stack, else the open one with the most sizes to choose from."""
    best, best_key = None, (0, 0)
    for at in range(len(slots)):
        key = (1 if slots[at]["many"] else 0, len(sizes[at] or []))
        if sizes[at] and key > best_key:
            best, best_key = at, key
    return best


def _effect(slots: list, stack: list, without: int | None) -> int:
    return sum([sum(stack[at]) * (-1 if slots[at]["way"] == "down" else 1) for at in range(len(slots)) if at != without])


def _choices(many: bool, sizes: list, need: int, enough: int) -> list:
    """What the filler could hold to come near `need`: the nearest size on either side, and of a stack nothing, or, where no size
    comes within `enough`, the nearest pair."""
    above = first_over(sizes, need)
    near = [sizes[at][0] for at in (above - 1, above) if 0 <= at < len(sizes)]
    singles = [[size] for size in near]
    if not many:
        return singles
    if abs(need) <= enough or any([abs(size - need) <= enough for size in near]):
        return singles + [[]]
    return singles + [[]] + _pair(sizes, need)



def _pair(sizes: list, need: int) -> list:
    """The two sizes whose sum is nearest to `need`, from both ends inwards."""
    low, high, best, best_off = 0, len(sizes) - 1, [], None
    while low < high or (low == high and sizes[low][1] > 1):
        past = sizes[low][0] + sizes[high][0] - need
        away = -past if past < 0 else past
        if best_off is None or away < best_off:
            best, best_off = [[sizes[low][0], sizes[high][0]]], away
        if past < 0:
            low += 1
        else:
            high -= 1
    return best
