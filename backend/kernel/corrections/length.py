"""The nearest length to order, where parts come in steps.

Law: each station gets the length nearest to the one it wants; halfway goes to the longer. Beside that, the one length that
would serve all with the least worst deviation, for those who order a set.
"""
from __future__ import annotations

from ..sorting import merge_sort


def lengths(wanted: list, step: int) -> dict:
    """Lengths to order for the `wanted` ones, all in nm; parts come in multiples of `step`.

    Returns {each, order, one, worst}: each length and how far it is from the wanted one, {length, off} by station; the order
    {length, count}, shortest first; the one length for all and its largest deviation.
    Raises ValueError for no station or a step of nothing.
    """
    if step <= 0 or not wanted:
        raise ValueError("A length to order needs a wanted length and a step above nothing.")
    each = [nearest(want, step) for want in wanted]
    one = (min(wanted) + max(wanted) + step) // (2 * step) * step
    return {"each": [{"length": each[i], "off": each[i] - wanted[i]} for i in range(len(wanted))], "order": counted(each),
            "one": one, "worst": max([abs(one - want) for want in wanted])}


def nearest(want: int, step: int) -> int:
    return (2 * want + step) // (2 * step) * step


def counted(each: list) -> list:
    """Equal lengths put together: {length, count}, shortest first."""
    order: list = []
    for length in merge_sort(each, lambda length: length):
        if order and order[len(order) - 1]["length"] == length:
            order[len(order) - 1]["count"] += 1
        else:
            order.append({"length": length, "count": 1})
    return order
