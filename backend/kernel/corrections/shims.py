"""The shim stack that brings an end play to its aim.

Law: shims take up play, so play + stack = the play with no shim at all, and that sum stands until something else is
changed. Every stack that can be made is judged by the play it would leave. A stack that leaves no play is never
proposed, whatever the limits say: a shaft with no end play burns its thrust face.

Which stack is best:
  1. it leaves play within the limits;
  2. it comes within `near` of the aim; of those, the fewest shims (every face between shims is a place for dirt), then
     the nearest to the aim. When none comes that near: the nearest, then the fewest;
  3. it keeps the most of the shims already fitted;
  4. the shims whose names come first.

Common practice, no published source.
"""
from __future__ import annotations

from ..sorting import merge_sort

FEW = 4  # a stack this short that is near enough settles the question, so these are tried first
MOST_KINDS = 20000  # different stacks held at once; shims read on a gauge's grid make far fewer


def stack(play_now: int, fitted: list, on_hand: list, low: int | None, high: int | None,
          aim: int | None = None, near: int = 0) -> dict:
    """Choose from `fitted` (in the stack now) and `on_hand` (loose), each a list of {id, thickness}; all in nm.

    Without `aim` the middle of the limits is aimed at (with one limit only, that limit).
    Returns {ids, thickness, play, deviation, count, keeps, cures, order}: `ids` the shims of the new stack in order of
    name, `thickness` their sum, `play` what they should leave, `deviation` play less aim, `keeps` how many of the
    fitted ones stay. When nothing on hand brings the play in, `cures` is False, the stack is the one that comes nearest
    to the limits, and `order` is the thickness of the whole stack that would leave the aim (None where none could).
    When there is no play even without shims, `ids` to `keeps` are None.
    The answer is the best there is while the shims make no more than MOST_KINDS different stacks. With more (twenty
    shims off any common grid), stacks of one count within a micrometre count as one, and the last micrometre is not won.
    Raises ValueError for a shim of no thickness, a name used twice, or neither limit nor aim.
    """
    shims = _checked(fitted, on_hand)
    free = play_now + sum([shim["thickness"] for shim in fitted])
    target = _target(low, high, aim)
    best = None
    for most, grain in ((FEW, 1), (len(shims), 1), (len(shims), 1000), (len(shims), 10000)):
        kinds = _stacks(shims, free, most, grain)
        if kinds is None:
            continue
        best = _best(kinds, free, low, high, target, near)
        if most == len(shims) or (best is not None and best[0][0] == 0):
            break
    return _answer(best, free, target)


def _checked(fitted: list, on_hand: list) -> list:
    """All shims as (id, thickness, 1 if fitted now) in order of name."""
    shims, names = [], {}
    for here, group in ((1, fitted), (0, on_hand)):
        for shim in group:
            if shim["thickness"] <= 0:
                raise ValueError("Shim " + shim["id"] + " has no thickness; measure it first.")
            if shim["id"] in names:
                raise ValueError("Shim " + shim["id"] + " is listed twice.")
            names[shim["id"]] = True
            shims.append((shim["id"], shim["thickness"], here))
    return merge_sort(shims, lambda shim: shim[0])


def _target(low: int | None, high: int | None, aim: int | None) -> int:
    if aim is not None:
        return aim
    if low is not None and high is not None:
        return (low + high) // 2
    for limit in (low, high):
        if limit is not None:
            return limit
    raise ValueError("A shim stack needs a limit or an aim for the play it should leave.")


def _stacks(shims: list, free: int, most: int, grain: int) -> list | None:
    """By count, {grains: (thickness, kept as a negative count, ids)}: the best by rules 3 and 4 for each.

    Shims come in order of name, so the better of two equal stacks stays the better whatever is added to both.
    Stacks that take up all the play are left out. None when there are more than MOST_KINDS.
    """
    if free <= 0:
        return []
    by_count: list = [{0: (0, 0, [])}] + [{} for _ in range(most)]
    kinds = 1
    for name, thickness, here in shims:
        for count in range(most - 1, -1, -1):
            more = by_count[count + 1]
            for total, kept, names in by_count[count].values():
                if total + thickness >= free:
                    continue
                grown = (total + thickness, kept - here, names + [name])
                at = grown[0] // grain
                known = more.get(at)
                if known is None:
                    kinds += 1
                if known is None or grown < known:
                    more[at] = grown
        if kinds > MOST_KINDS:
            return None
    return by_count


def _best(by_count: list, free: int, low: int | None, high: int | None, target: int, near: int) -> tuple | None:
    """The best stack, as (merit, fitted ones that stay as a negative count, ids, thickness)."""
    best = None
    for count in range(len(by_count)):
        for total, kept, names in by_count[count].values():
            found = (_merit(free - total, count, low, high, target, near), kept, names, total)
            if best is None or found < best:
                best = found
    return best


def _merit(play: int, count: int, low: int | None, high: int | None, target: int, near: int) -> tuple:
    """Rules 1 and 2 as a key, least is best; its first item is 0 near the aim, 1 within the limits, 2 outside."""
    off = abs(play - target)
    outside = 0
    if low is not None and play < low:
        outside = low - play
    if high is not None and play > high:
        outside = play - high
    if outside:
        return (2, outside, off, count)
    return (0, count, off) if off <= near else (1, off, count)


def _answer(best: tuple | None, free: int, target: int) -> dict:
    order = free - target if 0 < target < free else None
    if best is None:
        return {"ids": None, "thickness": None, "play": None, "deviation": None, "count": None, "keeps": None,
                "cures": False, "order": order}
    merit, kept, ids, total = best
    cures = merit[0] < 2
    return {"ids": ids, "thickness": total, "play": free - total, "deviation": free - total - target,
            "count": len(ids), "keeps": -kept, "cures": cures, "order": None if cures else order}
