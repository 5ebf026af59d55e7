"""What a figure means against its limit.

Law: a value on the post is in. A figure inside, but nearer a post than the reading can tell, is in and `close`.
"""
from __future__ import annotations

IN, UNDER, OVER = "in", "under", "over"


def judge(value: int, low: int | None, high: int | None, tells: int = 0) -> dict:
    """`{"verdict", "by", "close", "end"}`; all in one base unit.

    `by` is the distance to the limit broken, or to the nearer limit when in; `end` says which limit that is;
    `tells` is what the reading can tell, plus or minus.
    """
    if low is not None and value < low:
        return {"verdict": UNDER, "by": low - value, "close": False, "end": "low"}
    if high is not None and value > high:
        return {"verdict": OVER, "by": value - high, "close": False, "end": "high"}
    room = [(value - low, "low")] if low is not None else []
    room = room + ([(high - value, "high")] if high is not None else [])
    if not room:
        return {"verdict": IN, "by": 0, "close": False, "end": ""}
    nearest = min(room)
    return {"verdict": IN, "by": nearest[0], "close": nearest[0] < tells, "end": nearest[1]}
