"""Between which figures a formula can lie, from the bands of its readings.

Law: intervals are never narrower than the truth. A formula that could divide by zero, or take the root of something
negative, for readings that are not absurd is refused: it would fail at the bench.
"""
from __future__ import annotations

import math
from fractions import Fraction

from . import units
from .dimensions import Known, kind_of
from .nodes import LEAVES, BadFormula, Node

Span = tuple[Fraction, Fraction]
PI = Fraction(428224593349304, 136308121570117)  # right to 29 digits, and small enough for any JSON reader
SLACK = Fraction(1, 10**12)
FINE = 10**12


def span(node: Node, known: Known) -> Span:
    """(low, high) in coherent units. BadFormula for a division or a root that may fail."""
    if node.head in LEAVES:
        leaf = known[(node.head, node.name)]
        return leaf.low, leaf.high
    if node.head in ("pure", "pi"):
        number = PI if node.head == "pi" else node.number
        return number, number
    if node.head == "quantity":
        number = node.number * units.grain(node.dimension)
        return number, number
    parts = [span(part, known) for part in node.parts]
    if node.over_stations:
        return _over(node, parts[0], known)
    if node.head == "/" and parts[1][0] <= 0 <= parts[1][1]:
        raise BadFormula(_may_be_zero(node.parts[1], parts[1], known))
    if node.head == "sqrt" and parts[0][0] < 0:
        raise BadFormula(f"'{node.parts[0].text}' may be negative{_between(node.parts[0], parts[0], known)}, and has no root then.")
    return _REACH[node.head](node, parts)


def _over(node: Node, inside: Span, known: Known) -> Span:
    part = node.parts[0]
    count = known[(part.head, part.name)].stations
    if node.head == "sum":
        return inside[0] * count, inside[1] * count
    return (Fraction(0), inside[1] - inside[0]) if node.head == "spread" else inside


def _corners(results: list[Fraction]) -> Span:
    return min(results), max(results)


def _times(a: Span, b: Span) -> Span:
    return _corners([x * y for x in a for y in b])


def _power(node: Node, parts: list[Span]) -> Span:
    low, high = parts[0]
    ends = _corners([low**node.power, high**node.power])
    return (Fraction(0), ends[1]) if node.power % 2 == 0 and low < 0 < high else ends


def _abs(node: Node, parts: list[Span]) -> Span:
    low, high = parts[0]
    ends = _corners([abs(low), abs(high)])
    return (Fraction(0), ends[1]) if low < 0 < high else ends


def _root(node: Node, parts: list[Span]) -> Span:
    return _isqrt(parts[0][0], 0), _isqrt(parts[0][1], 1)


def _isqrt(x: Fraction, more: int) -> Fraction:
    return Fraction(math.isqrt(x.numerator * x.denominator * FINE * FINE) + more, x.denominator * FINE)


def _wave(node: Node, parts: list[Span]) -> Span:
    """Sine or cosine of degrees: the ends, and the crests and troughs that lie between them."""
    shift = 90 if node.head == "cos" else 0
    low, high = (end + shift for end in parts[0])
    if high - low >= 360:
        return Fraction(-1), Fraction(1)
    reach = [Fraction(math.sin(math.radians(float(end)))) for end in (low, high)]
    for turn in range(math.floor(low / 90), math.ceil(high / 90) + 1):
        if low <= turn * 90 <= high and turn % 2:
            reach.append(Fraction(1 if turn % 4 == 1 else -1))
    return max(min(reach) - SLACK, Fraction(-1)), min(max(reach) + SLACK, Fraction(1))


def _spread(node: Node, parts: list[Span]) -> Span:
    apart = [a[0] - b[1] for a in parts for b in parts if a is not b]
    return max([Fraction(0), *apart]), max(high for _, high in parts) - min(low for low, _ in parts)


def _mean(node: Node, parts: list[Span]) -> Span:
    return sum((low for low, _ in parts), Fraction(0)) / len(parts), sum((high for _, high in parts), Fraction(0)) / len(parts)


_REACH = {
    "+": lambda node, p: (p[0][0] + p[1][0], p[0][1] + p[1][1]),
    "-": lambda node, p: (p[0][0] - p[1][1], p[0][1] - p[1][0]),
    "neg": lambda node, p: (-p[0][1], -p[0][0]),
    "*": lambda node, p: _times(p[0], p[1]),
    "/": lambda node, p: _times(p[0], (1 / p[1][1], 1 / p[1][0])),
    "**": _power, "abs": _abs, "sqrt": _root, "sin": _wave, "cos": _wave,
    "min": lambda node, p: (min(low for low, _ in p), min(high for _, high in p)),
    "max": lambda node, p: (max(low for low, _ in p), max(high for _, high in p)),
    "mean": _mean, "spread": _spread,
}


def _may_be_zero(part: Node, reach: Span, known: Known) -> str:
    return (f"'{part.text}' is divided by, and may be zero{_between(part, reach, known)}. Narrow the bands of what it rests on, "
            "or keep it above zero with max(…, a quantity).")


def _between(part: Node, reach: Span, known: Known) -> str:
    dimension = units.dimension_of(kind_of(part, known).powers)
    unit = next((unit for unit in units.UNITS if unit.dimension == dimension), None)
    if unit is None:
        return ""
    low, high = (float(end / units.grain(dimension) / units.factor(unit.id)) for end in reach)
    return f": by the bands it lies between {low:.6g} and {high:.6g} {unit.id}"
