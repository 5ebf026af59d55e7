"""What a formula gives: its dimension, and the group it gives one figure per station of.

Law: only like is added to like (pint judges), and one group never meets another in one formula.
"""
from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from .formula import OVER_STATIONS, BadFormula, Tree
from .units import can_add


class Kind(NamedTuple):
    """`group` is empty for a single figure."""

    dimension: str
    group: str


def kind_of(tree: Tree, known: Mapping[str, Kind], numbers: Mapping[int, str]) -> Kind:
    """Kind of a formula, from the kinds of its points and fits. BadFormula names what does not go together."""
    head = tree[0]
    if head in ("point", "fit"):
        return known[tree[1]]
    if head == "number":
        return Kind(numbers[id(tree)], "")
    if head in OVER_STATIONS:
        return _over(tree, kind_of(tree[1], known, numbers))
    return _together(tree, kind_of(tree[1], known, numbers), kind_of(tree[2], known, numbers))


def _over(tree: Tree, inside: Kind) -> Kind:
    # the kernel takes these over a point or a fit, so that each station's own figure has a name and a verdict
    if tree[1][0] not in ("point", "fit"):
        raise BadFormula(f"'{tree[0]}' takes the name of a point or a fit: make '{in_text(tree[1])}' a fit of its own first.")
    if not inside.group:
        raise BadFormula(f"'{tree[0]}' needs something with several stations; '{in_text(tree[1])}' is a single figure.")
    return Kind(inside.dimension, "")


def _together(tree: Tree, left: Kind, right: Kind) -> Kind:
    verb = "added to" if tree[0] == "+" else "taken from"
    one, other = (left, right) if tree[0] == "+" else (right, left)
    first, second = (tree[1], tree[2]) if tree[0] == "+" else (tree[2], tree[1])
    if not can_add(left.dimension, right.dimension):
        raise BadFormula(f"'{in_text(first)}' ({one.dimension}) cannot be {verb} '{in_text(second)}' ({other.dimension}).")
    if left.group and right.group and left.group != right.group:
        raise BadFormula(f"'{in_text(first)}' is read at the stations of {one.group}, '{in_text(second)}' at those of "
                         f"{other.group}: they cannot be {verb.split()[0]} station by station.")
    return Kind(left.dimension, left.group or right.group)


def in_text(tree: Tree) -> str:
    """A tree as a person would write it; numbers stand for themselves on the grid."""
    head = tree[0]
    if head in ("point", "fit", "number"):
        return str(tree[1])
    if head in OVER_STATIONS:
        return f"{head}({in_text(tree[1])})"
    return f"{in_text(tree[1])} {head} {in_text(tree[2])}"
