"""Sine and cosine without floats: the two runtimes' own differ in the last place.

Law: an angle is microdegrees as a pair (num, den); the answer is a pair over SCALE, right to about 15 places.
"""
from __future__ import annotations

from .rational import Pair, rounded, times

SCALE = 10 ** 18
PI = 3141592653589793238  # times SCALE
TURN = 360_000_000        # microdegrees
PER_MICRODEGREE = (PI, 180_000_000 * SCALE)  # radians in a microdegree
SPARE = 10 ** 6           # an angle is kept to a millionth of a microdegree


def sine(angle: Pair) -> Pair:
    return (_series(_radians(angle, -90_000_000)), SCALE)


def cosine(angle: Pair) -> Pair:
    return (_series(_radians(angle, 0)), SCALE)


def _radians(angle: Pair, shift: int) -> int:
    """The angle less `shift`, folded to where its cosine is a sine of at most a quarter turn; radians times SCALE."""
    micro = rounded(times(angle, (SPARE, 1))) + shift * SPARE
    turn = TURN * SPARE
    micro = abs((micro + turn // 2) % turn - turn // 2)   # the cosine of -a is that of a
    quarter = turn // 4 - micro                           # cos a = sin(90 - a)
    return quarter * PI // (turn // 2)


def _series(x: int) -> int:
    """sin x by its power series, x in radians times SCALE, at most a quarter turn either way."""
    total, term, n = 0, x, 1
    while term:
        total += term
        term = -(term * x // SCALE) * x // SCALE
        n += 2
        term = _toward_zero(term, (n - 1) * n)
    return total


def _toward_zero(a: int, b: int) -> int:
    return a // b if a >= 0 else -(-a // b)
