"""Exact pure numbers in a compiled tree: ["ratio", num, den].

Law: no integer is larger than a phone's JSON carries exactly; a factor that would be is split into several.
"""
from __future__ import annotations

from fractions import Fraction

from . import units
from .nodes import BadFormula

Tree = list
CHUNK = 10**15


def times_ratio(factor: Fraction, tree: Tree) -> Tree:
    """["*", ["ratio", n, d], tree], several times over where one ratio would hold too large a number."""
    num, den = factor.numerator, factor.denominator
    while (num, den) != (1, 1):
        n, d = _chunk(num), _chunk(den)
        tree = ["*", ["ratio", n, d], tree]
        num, den = num // n, den // d
    return tree


def _chunk(number: int) -> int:
    """The number itself when small, else a large divisor of it. Factors between grids are made of 2, 3 and 5 alone."""
    if abs(number) <= CHUNK:
        return number
    out = 1
    for prime in (2, 3, 5):
        while number % prime == 0 and out * prime <= CHUNK:
            out, number = out * prime, number // prime
    if out == 1:
        raise BadFormula("A number in the formula is larger than can be kept exactly: write it with fewer digits.")
    return out


def exact_of(tree: Tree) -> Fraction:
    """The number a ratio stands for."""
    return Fraction(tree[1], tree[2])


def folded(exact: Fraction) -> Tree | None:
    """The ratio, or None when it would hold too large an integer."""
    if abs(exact.numerator) > units.LARGEST or exact.denominator > units.LARGEST:
        return None
    return ratio_of(exact)


def ratio_of(exact: Fraction) -> Tree:
    return ["ratio", exact.numerator, exact.denominator]
