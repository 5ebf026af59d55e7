"""Stacks that could stand under and over one valve spring, from parts of so many sizes.

Law: a locator or shim under the spring takes its thickness off the installed height; a retainer or lock gives its offset back,
and a negative one takes it. A slot that holds one part keeps one once it has one. A part nobody measured stays where it is.
"""
from __future__ import annotations

from ..sorting import first_over, merge_sort
from .within import excess, off, target

MOST_SHIMS = 3  # under one spring: every face between shims is a place for dirt (common practice, no published source)


def offsets(slots: list, fitted: list, sizes: list) -> list:
    """Every stack that may be made for a valve that holds `fitted` (for each slot its sizes, rising).

    slots   {way: "down" | "up", many, kind}
    sizes   for each slot the sizes there are, rising, as (size, how many); None where the slot stays as it is
    Returns [(effect, parts, changed, sizes, counts)] in order of effect: by how much the stack moves the bare height, how many
    parts, how many slots change, the sizes by slot, and how many of each {(kind, size): count}. No stack
    takes more of a size than there are; what other valves take is not looked at here.
    """
    stacks: list = [[]]
    for at in range(len(slots)):
        choices = _choices(slots[at]["many"], fitted[at], sizes[at])
        stacks = [stack + [choice] for choice in choices for stack in stacks]
    return _told(slots, fitted, stacks)


def how_many(slots: list, sizes: list) -> int:
    """About how many stacks `offsets` would make of so many sizes."""
    count = 1
    for at in range(len(slots)):
        n = len(sizes[at])
        count = count * ((n + 1) * (n + 2) * (n + 3) // 6 if slots[at]["many"] else n + 1)
    return count


def _told(slots: list, fitted: list, stacks: list) -> list:
    """Stacks (sizes by slot) with what there is to say of them."""
    kinds, out = [slot["kind"] for slot in slots], []
    for stack in stacks:
        effect = parts = changed = 0
        for at in range(len(slots)):
            effect += sum(stack[at]) * (-1 if slots[at]["way"] == "down" else 1)
            parts += len(stack[at])
            changed += 0 if stack[at] == fitted[at] else 1
        out.append((effect, parts, changed, stack, _counts(kinds, stack)))
    return merge_sort(out, lambda stack: stack[0])


def _counts(kinds: list, sizes: list) -> dict:
    counts: dict = {}
    for at in range(len(sizes)):
        for size in sizes[at]:
            name = (kinds[at], size)
            counts[name] = counts.get(name, 0) + 1
    return counts


def _choices(many: bool, fitted: list, sizes: list | None) -> list:
    """What a slot may hold: what it holds now first."""
    found = [fitted]
    if sizes is None:
        return found
    if not many:
        return found + [[size] for size, _ in sizes if [size] != fitted]
    layer: list = [[]]
    for _ in range(MOST_SHIMS + 1):
        found = found + [stack for stack in layer if stack != fitted]
        layer = [stack + [size] for stack in layer for size, there in sizes
                 if (not stack or size >= stack[len(stack) - 1]) and stack.count(size) < there]
    return found


def nearest_stacks(bare: int, limit: dict, stacks: list, now: list, most: tuple) -> list:
    """[(out, squared deviation, parts, changed, sizes, counts)], best first: of the stacks that are in the most[0] best, of those
    that are out the most[1] nearest, and the present one, last where it is neither."""
    wanted = (target(limit) or 0) - bare
    low = None if limit.get("low") is None else limit["low"] - bare
    high = None if limit.get("high") is None else limit["high"] - bare
    above, count = first_over(stacks, wanted), len(stacks)
    below = above - 1
    taken: list = [[], []]
    while below >= 0 or above < count:
        if below >= 0 and (above == count or wanted - stacks[below][0] <= stacks[above][0] - wanted):
            stack, below = stacks[below], below - 1
        else:
            stack, above = stacks[above], above + 1
        out = 1 if (low is not None and stack[0] < low) or (high is not None and stack[0] > high) else 0
        if len(taken[out]) < most[out]:
            _insert(taken[out], _row(bare, limit, stack, out))
        elif len(taken[1]) >= most[1] and (len(taken[0]) >= most[0] or _past(stacks, below, above, low, high)):
            break
    rows = taken[0] + taken[1]
    if not any([row[4] == now for row in rows]):
        rows = rows + [_row(bare, limit, s, 1 if excess(bare + s[0], limit) else 0) for s in stacks if s[3] == now]
    return rows


def _past(stacks: list, below: int, above: int, low: int | None, high: int | None) -> bool:
    """Whether every stack not yet looked at is out."""
    if below >= 0 and (low is None or stacks[below][0] >= low):
        return False
    return above == len(stacks) or (high is not None and stacks[above][0] > high)


def _insert(rows: list, row: tuple) -> None:
    """Into rows that rise; they come nearly in order."""
    at = len(rows)
    while at and row < rows[at - 1]:
        at -= 1
    rows.insert(at, row)


def _row(bare: int, limit: dict, stack: tuple, out: int) -> tuple:
    o = off(bare + stack[0], limit)
    return (out, o * o) + stack[1:]
