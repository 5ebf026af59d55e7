"""One sort for the whole kernel, and one search in what is sorted.

Law: the sort is stable, n log n on any input, each key worked out once. The phone's own sort is none of these.
"""
from __future__ import annotations


def merge_sort(items: list, key) -> list:
    """A new list of `items` in rising order of `key(item)`; equal keys keep their order."""
    runs = [[(key(item), item)] for item in items]
    while len(runs) > 1:
        merged = []
        for i in range(0, len(runs) - 1, 2):
            merged.append(_merge(runs[i], runs[i + 1]))
        if len(runs) % 2:
            merged.append(runs[len(runs) - 1])
        runs = merged
    return [pair[1] for pair in runs[0]] if runs else []


def _merge(left: list, right: list) -> list:
    out = []
    i = j = 0
    while i < len(left) and j < len(right):
        if right[j][0] < left[i][0]:
            out.append(right[j])
            j += 1
        else:
            out.append(left[i])
            i += 1
    return out + left[i:] + right[j:]


def first_over(rows: list, value: int) -> int:
    """Where the first of `rows`, rising by their first item, stands whose first item is above `value`; their number for none."""
    low, high = 0, len(rows)
    while low < high:
        middle = (low + high) // 2
        if rows[middle][0] > value:
            high = middle
        else:
            low = middle + 1
    return low
