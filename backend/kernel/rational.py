"""Exact fractions as pairs (num, den), den > 0.

Law: no float takes part, so both runtimes give the same digits. A pair is reduced only when it has grown long: a common
factor does no harm to a value, only to the time it takes.
"""
from __future__ import annotations

Pair = tuple  # (int, int)

LONG = 10 ** 150
ROOT_SCALE = 10 ** 15


def pair(num: int, den: int = 1) -> Pair:
    """num / den with a positive den; ZeroDivisionError for den 0."""
    if den == 0:
        raise ZeroDivisionError("a fraction over nothing")
    if den < 0:
        num, den = -num, -den
    return _short(num, den) if den > LONG else (num, den)


def _short(num: int, den: int) -> Pair:
    a, b = abs(num), den
    while b:
        a, b = b, a % b
    return (num // a, den // a)


def plus(a: Pair, b: Pair) -> Pair:
    if a[1] == b[1]:
        return (a[0] + b[0], a[1])
    return pair(a[0] * b[1] + b[0] * a[1], a[1] * b[1])


def minus(a: Pair, b: Pair) -> Pair:
    return plus(a, (-b[0], b[1]))


def times(a: Pair, b: Pair) -> Pair:
    return pair(a[0] * b[0], a[1] * b[1])


def over(a: Pair, b: Pair) -> Pair:
    """a / b; ZeroDivisionError when b is zero."""
    return pair(a[0] * b[1], a[1] * b[0])


def power(a: Pair, n: int) -> Pair:
    """a to a whole power from 0."""
    return pair(a[0] ** n, a[1] ** n)


def less(a: Pair, b: Pair) -> bool:
    return a[0] * b[1] < b[0] * a[1]


def rounded(a: Pair) -> int:
    """The nearest integer, half away from zero."""
    n = (2 * abs(a[0]) + a[1]) // (2 * a[1])
    return -n if a[0] < 0 else n


def root(a: Pair) -> Pair:
    """The square root of a >= 0, to 15 places below the unit. ValueError below zero."""
    if a[0] < 0:
        raise ValueError("the root of something below zero")
    return pair(whole_root(a[0] * a[1] * ROOT_SCALE * ROOT_SCALE), a[1] * ROOT_SCALE)


def whole_root(n: int) -> int:
    """The largest whole number whose square is at most n (Newton's rule on integers)."""
    if n < 2:
        return n
    guess = 1
    while guess * guess <= n:
        guess *= 2
    while True:
        better = (guess + n // guess) // 2
        if better >= guess:
            return guess
        guess = better
