"""A formula taken apart: one node for each thing in it, before any number is put on the grid."""
from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

LEAVES = ("point", "fit", "choice", "size")
STATIONS = ("mean", "spread", "min", "max", "sum")  # with one argument: over the stations of a group
SEVERAL = ("mean", "spread", "min", "max")          # with more: over the arguments, station by station
SINGLE = ("abs", "sqrt", "sin", "cos")


class Node(NamedTuple):
    """`head` is as in the compiled tree, or `quantity`, `pure` (an exact number), `pi`; `text` is how it was written."""

    head: str
    text: str
    parts: tuple = ()
    name: str = ""          # of a leaf; a choice's is `choice.column`
    number: Fraction = Fraction(0)  # of a pure number, or of a quantity on the grid
    dimension: str = ""     # of a quantity
    power: int = 0          # of `**`

    @property
    def over_stations(self) -> bool:
        return self.head in STATIONS and len(self.parts) == 1


class BadFormula(ValueError):
    """A formula that cannot be used; the message is a plain sentence."""


def leaves(node: Node) -> Iterator[tuple[str, str]]:
    """(kind, name) of every point, fit, choice column and slot, in order of mention."""
    if node.head in LEAVES:
        yield node.head, node.name
    for part in node.parts:
        yield from leaves(part)
