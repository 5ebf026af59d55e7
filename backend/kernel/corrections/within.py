"""One figure against its own limits: how far past, and how far from what is wanted.

Law: out is out, to the last unit. What is wanted is the aim; without one the middle of the limits; with one limit only, that
limit. A limit is {low, high, aim}, each an integer or None; figures are integers of any one dimension.
"""
from __future__ import annotations


def excess(value: int, limit: dict) -> int:
    """How far past a limit, 0 when in."""
    low, high = limit.get("low"), limit.get("high")
    if low is not None and value < low:
        return low - value
    if high is not None and value > high:
        return value - high
    return 0


def target(limit: dict) -> int | None:
    """What is wanted, or None where nothing says."""
    low, high, aim = limit.get("low"), limit.get("high"), limit.get("aim")
    if aim is not None:
        return aim
    if low is not None and high is not None:
        return (low + high) // 2
    return low if low is not None else high


def off(value: int, limit: dict) -> int:
    """Figure less what is wanted; with one limit only, how far past it (inside it nothing more is wanted)."""
    wanted = target(limit)
    if wanted is None:
        return 0
    if limit.get("aim") is None and (limit.get("low") is None or limit.get("high") is None):
        return value - wanted if excess(value, limit) else 0
    return value - wanted


def divided(a: int, b: int) -> int:
    """a / b, half away from zero."""
    if b < 0:
        a, b = -a, -b
    n = (2 * abs(a) + b) // (2 * b)
    return -n if a < 0 else n


def common_step(numbers: list) -> int:
    """The greatest whole number that divides them all (1 for none): readings off one gauge share its graduation."""
    step = 0
    for number in numbers:
        a = abs(number)
        while a:
            step, a = a, step % a
    return step or 1
