"""What a formula gives: its dimension, and the group it gives one figure per station of.

Law: only like is added to like (pint's powers judge, compound ones too), and one group never meets another in one formula.
"""
from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple

from . import units
from .nodes import LEAVES, BadFormula, Node
from .unit_table import a


class Leaf(NamedTuple):
    """What is known of a point, fit, choice column or slot: low and high bound its figure, in coherent units."""

    dimension: str
    group: str
    low: Fraction
    high: Fraction
    stations: int = 1


class Kind(NamedTuple):
    """Powers of base dimensions; `group` is empty for a single figure."""

    powers: units.Dims
    group: str


Known = Mapping[tuple[str, str], Leaf]


def kind_of(node: Node, known: Known) -> Kind:
    """Kind of a formula, from the kinds of its leaves. BadFormula names what does not go together."""
    if node.head in LEAVES:
        leaf = known[(node.head, node.name)]
        return Kind(units.dims(leaf.dimension), leaf.group)
    if node.head in ("pure", "pi", "quantity"):
        return Kind(units.dims(node.dimension) if node.dimension else units.PURE, "")
    if node.over_stations:
        return _over(node, kind_of(node.parts[0], known))
    kinds = [kind_of(part, known) for part in node.parts]
    return Kind(_powers(node, [kind.powers for kind in kinds]), _group(node, kinds))


def in_words(powers: units.Dims) -> str:
    """'length', or for what has no name '[length]^2 [time]^-1'."""
    named = units.dimension_of(powers)
    return named or " ".join(f"{name}^{power}" for name, power in sorted(powers.items()))


def _powers(node: Node, found: list[units.Dims]) -> units.Dims:
    first = found[0]
    if node.head == "*":
        return first * found[1]
    if node.head == "/":
        return first / found[1]
    if node.head == "**":
        return first**node.power
    if node.head == "sqrt":
        return first ** Fraction(1, 2)
    if node.head in ("sin", "cos"):
        return _of_angle(node, first)
    for part, powers in zip(node.parts[1:], found[1:], strict=True):
        if powers != first:
            raise BadFormula(_unlike(node, node.parts[0], first, part, powers))
    return first


def _of_angle(node: Node, powers: units.Dims) -> units.Dims:
    if powers != units.dims("angle"):
        raise BadFormula(f"'{node.head}' takes an angle; '{node.parts[0].text}' is {a(in_words(powers))}.")
    return units.PURE


def _unlike(node: Node, left: Node, its: units.Dims, right: Node, others: units.Dims) -> str:
    for number in (left, right):
        if number.head == "pure":
            return f"The number {number.text} has no unit. Write it with one, in quotes: '{number.text} in'."
    if node.head == "-":
        return f"'{right.text}' ({in_words(others)}) cannot be taken from '{left.text}' ({in_words(its)})."
    verb = "added to" if node.head == "+" else "put beside"
    return f"'{left.text}' ({in_words(its)}) cannot be {verb} '{right.text}' ({in_words(others)})."


def _over(node: Node, inside: Kind) -> Kind:
    # the kernel takes these over a point or a fit, so that each station's own figure has a name and a verdict
    part = node.parts[0]
    if part.head not in ("point", "fit"):
        raise BadFormula(f"'{node.head}' takes the name of a point or a fit: make '{part.text}' a fit of its own first.")
    if not inside.group:
        raise BadFormula(f"'{node.head}' needs something with several stations; '{part.text}' is a single figure.")
    return Kind(inside.powers, "")


def _group(node: Node, kinds: list[Kind]) -> str:
    group = ""
    for part, kind in zip(node.parts, kinds, strict=True):
        if group and kind.group and kind.group != group:
            raise BadFormula(f"'{node.parts[0].text}' is read at the stations of {group}, '{part.text}' at those of "
                             f"{kind.group}: they cannot meet station by station.")
        group = group or kind.group
    return group
