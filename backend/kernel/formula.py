"""Worked-out values: a formula tree evaluated over readings.

Law: a formula gives a value only when every reading it rests on is there and can be relied on; otherwise it says why not.
"""
from __future__ import annotations

from .sorting import merge_sort

NOT_READ, STALE, CONTRARY, READ = "not_read", "stale", "contrary", "read"


def work_out(tree: list, station: str, source) -> dict:
    """`{"state", "value", "step"}` of a tree at one station.

    `source(kind, name, station)` gives the same shape for a point or fit, and for a fit or point over all its stations a
    list of them (station None). `step` is how coarse the figure is: the sum of the readings' own resolutions, halved.
    """
    kind = tree[0]
    if kind == "number":
        return {"state": READ, "value": tree[1], "step": 0}
    if kind in ("point", "fit"):
        return source(kind, tree[1], station)
    if kind in ("+", "-"):
        return _joined(kind, work_out(tree[1], station, source), work_out(tree[2], station, source))
    return _over_all(kind, tree[1], source)


def _joined(kind: str, a: dict, b: dict) -> dict:
    state = worst([a["state"], b["state"]])
    if state != READ:
        return {"state": state, "value": None, "step": 0}
    value = a["value"] + b["value"] if kind == "+" else a["value"] - b["value"]
    return {"state": READ, "value": value, "step": a["step"] + b["step"]}


def _over_all(kind: str, inner: list, source) -> dict:
    found = source(inner[0], inner[1], None)
    state = worst([f["state"] for f in found])
    if state != READ:
        return {"state": state, "value": None, "step": 0}
    values = merge_sort([f["value"] for f in found], lambda v: v)
    coarse = max([f["step"] for f in found])
    if kind == "spread":
        return {"state": READ, "value": values[len(values) - 1] - values[0], "step": 2 * coarse}
    if kind == "min":
        return {"state": READ, "value": values[0], "step": coarse}
    if kind == "max":
        return {"state": READ, "value": values[len(values) - 1], "step": coarse}
    return {"state": READ, "value": _rounded(sum(values), len(values)), "step": coarse}


def _rounded(total: int, count: int) -> int:
    """total / count, half away from zero."""
    n = (2 * abs(total) + count) // (2 * count)
    return -n if total < 0 else n


def worst(states: list[str]) -> str:
    """One state for several readings: anything missing comes first, then stale, then contrary."""
    for state in (NOT_READ, STALE, CONTRARY):
        if state in states:
            return state
    return READ if states else NOT_READ
