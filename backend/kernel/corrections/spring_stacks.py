"""Stacks that could stand under and over one valve spring, from parts of so many sizes.

Law: a locator or shim under the spring takes its thickness off the installed height; a retainer or lock gives its offset back,
and a negative one takes it. A slot that holds one part keeps one once it has one. A part nobody measured stays where it is.
"""
from __future__ import annotations

from ..sorting import merge_sort
from .within import excess, off, target

MOST_SHIMS = 3  # under one spring: every face between shims is a place for dirt (common practice, no published source)


def offsets(slots: list, fitted: list, sizes: list) -> list:
    """Every stack that may be made for a valve that holds `fitted` (for each slot its sizes, rising).

    slots   {way: "down" | "up", many}
    sizes   for each slot the sizes there are, rising; None where the slot stays as it is
    Returns [(effect, parts, changed, sizes)] in order of effect: by how much the stack moves the bare height, how many parts,
    how many slots change, and the sizes by slot. How many there are of a size is not looked at here.
    """
    stacks = [(0, 0, 0, [])]
    for at in range(len(slots)):
        sign = -1 if slots[at]["way"] == "down" else 1
        grown = []
        for choice in _choices(slots[at]["many"], fitted[at], sizes[at]):
            effect, changed = sign * sum(choice), 0 if choice == fitted[at] else 1
            for stack in stacks:
                grown.append((stack[0] + effect, stack[1] + len(choice), stack[2] + changed, stack[3] + [choice]))
        stacks = grown
    return merge_sort(stacks, lambda stack: stack[0])


def _choices(many: bool, fitted: list, sizes: list | None) -> list:
    """What a slot may hold: what it holds now first."""
    found = [fitted]
    if sizes is None:
        return found
    if not many:
        return found + [[size] for size in sizes if [size] != fitted]
    layer: list = [[]]
    for _ in range(MOST_SHIMS + 1):
        found = found + [stack for stack in layer if stack != fitted]
        layer = [stack + [size] for stack in layer for size in sizes if not stack or size >= stack[len(stack) - 1]]
    return found


def nearest_stacks(bare: int, limit: dict, stacks: list, now: list, most: int) -> list:
    """[(out, squared deviation, parts, changed, sizes)] of the `most` best that are in, the `most` nearest that are out, and `now`."""
    wanted = target(limit)
    above = _first_over(stacks, (wanted or 0) - bare)
    below = above - 1
    taken: list = [[], []]
    while below >= 0 or above < len(stacks):
        down = below >= 0 and (above == len(stacks) or (wanted or 0) - bare - stacks[below][0] <= stacks[above][0] + bare - (wanted or 0))
        stack = stacks[below if down else above]
        below, above = (below - 1, above) if down else (below, above + 1)
        out = 1 if excess(bare + stack[0], limit) else 0
        if len(taken[out]) < most:
            taken[out].append(_row(bare, limit, stack, out))
        if len(taken[1]) == most and (len(taken[0]) == most or _past(bare, limit, stacks, below, above)):
            break
    rows = taken[0] + taken[1]
    if not [row for row in rows if row[4] == now]:
        rows = rows + [_row(bare, limit, s, 1 if excess(bare + s[0], limit) else 0) for s in stacks if s[3] == now]
    return merge_sort(rows, lambda row: row)


def _row(bare: int, limit: dict, stack: tuple, out: int) -> tuple:
    o = off(bare + stack[0], limit)
    return (out, o * o, stack[1], stack[2], stack[3])


def _past(bare: int, limit: dict, stacks: list, below: int, above: int) -> bool:
    """Whether every stack not yet looked at is out."""
    low, high = limit.get("low"), limit.get("high")
    if below >= 0 and (low is None or bare + stacks[below][0] >= low):
        return False
    return above == len(stacks) or (high is not None and bare + stacks[above][0] > high)


def _first_over(stacks: list, effect: int) -> int:
    low, high = 0, len(stacks)
    while low < high:
        middle = (low + high) // 2
        if stacks[middle][0] > effect:
            high = middle
        else:
            low = middle + 1
    return low
