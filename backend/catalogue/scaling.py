"""From a formula taken apart to the tree the kernel evaluates.

Law: every leaf is a whole number on the grid, and where grids of different grain meet the exact factor stands in the tree
itself, as ["*", ["ratio", n, d], x]: the kernel holds no factor of its own. A sum over one dimension needs none.
No integer is larger than a phone's JSON carries exactly.
"""
from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from . import units
from .bands import PI
from .dimensions import Known, kind_of
from .nodes import LEAVES, Node
from .ratios import Tree, exact_of, folded, ratio_of, times_ratio


class Scaled(NamedTuple):
    """A tree, and what one of its units is worth in coherent units."""

    tree: Tree
    grain: Fraction


def to_tree(node: Node, known: Known) -> Tree:
    """The compiled tree; its figure comes out in grid units of the formula's dimension."""
    dimension = units.dimension_of(kind_of(node, known).powers)
    return _at(_scaled(node, known), units.grain(dimension))


def _scaled(node: Node, known: Known) -> Scaled:
    if node.head in LEAVES:
        names = node.name.split(".") if node.head == "choice" else [node.name]
        return Scaled([node.head, *names], units.grain(known[(node.head, node.name)].dimension))
    if node.head == "quantity":
        return Scaled(["number", int(node.number)], units.grain(node.dimension))
    if node.head in ("pure", "pi"):
        return Scaled(ratio_of(PI if node.head == "pi" else node.number), Fraction(1))
    parts = [_scaled(part, known) for part in node.parts]
    return _MADE.get(node.head, _alike)(node, parts, known)


def _alike(node: Node, parts: list[Scaled], known: Known) -> Scaled:
    """+ - and what is taken over arguments or stations: all parts on one grain, that of the first that is no bare number."""
    measured = [part for part in parts if part.tree[0] != "ratio"]
    grain = (measured or parts)[0].grain
    return Scaled([node.head, *[_at(part, grain) for part in parts]], grain)


def _negative(node: Node, parts: list[Scaled], known: Known) -> Scaled:
    tree, grain = parts[0]
    if tree[0] == "ratio":
        return Scaled(["ratio", -tree[1], tree[2]], grain)
    return Scaled(["number", -tree[1]] if tree[0] == "number" else ["-", ["number", 0], tree], grain)


def _times(node: Node, parts: list[Scaled], known: Known) -> Scaled:
    a, b = parts
    if a.tree[0] == "ratio" and b.tree[0] == "ratio":
        small = folded(exact_of(a.tree) * exact_of(b.tree))
        if small is not None:
            return Scaled(small, a.grain * b.grain)
    return Scaled(["*", a.tree, b.tree], a.grain * b.grain)


def _over(node: Node, parts: list[Scaled], known: Known) -> Scaled:
    a, b = parts
    if a.tree[0] == "ratio" and b.tree[0] == "ratio":
        small = folded(exact_of(a.tree) / exact_of(b.tree))
        if small is not None:
            return Scaled(small, a.grain / b.grain)
    return Scaled(["/", a.tree, b.tree], a.grain / b.grain)


def _power(node: Node, parts: list[Scaled], known: Known) -> Scaled:
    return Scaled(["**", parts[0].tree, node.power], parts[0].grain**node.power)


def _root(node: Node, parts: list[Scaled], known: Known) -> Scaled:
    """The root comes out on the grid where its dimension has one, else in a grain near that of what is under it."""
    tree, grain = parts[0]
    dimension = units.dimension_of(kind_of(node, known).powers)
    out = units.grain(dimension) if dimension else _near_root(grain)
    factor = grain / out**2
    if max(factor.numerator, factor.denominator) > units.LARGEST:
        return Scaled(["sqrt", times_ratio(factor, tree), 1, 1], out)
    return Scaled(["sqrt", tree, factor.numerator, factor.denominator], out)


def _near_root(grain: Fraction) -> Fraction:
    digits = len(str(grain.numerator)) - len(str(grain.denominator))
    return Fraction(10) ** (digits // 2)


def _wave(node: Node, parts: list[Scaled], known: Known) -> Scaled:
    return Scaled([node.head, _at(parts[0], units.grain("angle"))], Fraction(1))


_MADE = {"*": _times, "/": _over, "**": _power, "sqrt": _root, "sin": _wave, "cos": _wave, "neg": _negative}


def _at(part: Scaled, grain: Fraction) -> Tree:
    """The same figure counted in another grain."""
    factor = part.grain / grain
    tree = part.tree
    if factor == 1 and tree[0] != "ratio":
        return tree
    if tree[0] in ("ratio", "number"):
        exact = (exact_of(tree) if tree[0] == "ratio" else Fraction(tree[1])) * factor
        if exact.denominator == 1 and abs(exact) <= units.LARGEST:
            return ["number", exact.numerator]
        small = folded(exact)
        if small is not None:
            return small
    if tree[0] == "*" and tree[1][0] == "ratio":
        small = folded(exact_of(tree[1]) * factor)
        if small is not None:
            return tree[2] if small[1:] == [1, 1] else ["*", small, tree[2]]
    return times_ratio(factor, tree)
