"""Formulas in plain text.

Law: a formula is read, never run. Only names of points and fits, + and -, quantities in quotes ('0.001 in') and
mean, spread, min, max over the stations of a group; anything else is refused with a sentence.
"""
from __future__ import annotations

import ast
from collections.abc import Iterator

from .units import read_quantity

Tree = list  # ["point", id] | ["fit", id] | ["number", int] | ["+" | "-", a, b] | ["spread" | ..., a]
OVER_STATIONS = ("mean", "spread", "min", "max")
LONGEST = 200
SIGNS = {ast.Add: "+", ast.Sub: "-"}


class BadFormula(ValueError):
    """A formula that cannot be used; the message is a plain sentence."""


def parse(formula: str, points: set[str], fits: set[str]) -> tuple[Tree, dict[int, str]]:
    """The tree, and the dimension of each quantity in it by the id() of its node. BadFormula says what is wrong."""
    if len(formula) > LONGEST:
        raise BadFormula(f"A formula has at most {LONGEST} characters: make parts of it fits of their own.")
    try:
        body = ast.parse(formula, mode="eval").body
    except (SyntaxError, ValueError, RecursionError, MemoryError):
        raise BadFormula(f"'{formula}' is not a formula. Write it like 'main_bore - main_journal'.") from None
    numbers: dict[int, str] = {}
    return _tree(body, points, fits, numbers), numbers


def _tree(node: ast.expr, points: set[str], fits: set[str], numbers: dict[int, str]) -> Tree:
    if isinstance(node, ast.Name):
        return _name(node.id, points, fits)
    if isinstance(node, ast.BinOp) and type(node.op) in SIGNS:
        return [SIGNS[type(node.op)], _tree(node.left, points, fits, numbers), _tree(node.right, points, fits, numbers)]
    if isinstance(node, ast.Call):
        return _over_stations(node, points, fits, numbers)
    if isinstance(node, ast.Constant):
        return _number(node.value, numbers)
    raise BadFormula(f"'{ast.unparse(node)}' cannot be used in a formula: only +, -, {', '.join(OVER_STATIONS)} "
                     "and the names of points and fits.")


def _name(name: str, points: set[str], fits: set[str]) -> Tree:
    if name in points:
        return ["point", name]
    if name in fits:
        return ["fit", name]
    raise BadFormula(f"'{name}' is neither a point nor a fit of this procedure.")


def _over_stations(node: ast.Call, points: set[str], fits: set[str], numbers: dict[int, str]) -> Tree:
    called = node.func.id if isinstance(node.func, ast.Name) else ast.unparse(node.func)
    if called not in OVER_STATIONS:
        raise BadFormula(f"'{called}' is not known. A formula may use {', '.join(OVER_STATIONS)}.")
    if len(node.args) != 1 or node.keywords or isinstance(node.args[0], ast.Starred):
        raise BadFormula(f"'{called}' takes one thing, read at every station of its group.")
    return [called, _tree(node.args[0], points, fits, numbers)]


def _number(value: object, numbers: dict[int, str]) -> Tree:
    if not isinstance(value, str):
        raise BadFormula(f"The number {value} has no unit. Write it with one, in quotes: '{value} in'.")
    try:
        quantity = read_quantity(value)
    except ValueError as error:
        raise BadFormula(str(error)) from None
    tree: Tree = ["number", quantity.value]
    numbers[id(tree)] = quantity.dimension
    return tree


def names(tree: Tree) -> Iterator[tuple[str, str]]:
    """('point' or 'fit', name) for every name, in order of mention."""
    if tree[0] in ("point", "fit"):
        yield tree[0], tree[1]
    elif tree[0] != "number":
        for part in tree[1:]:
            yield from names(part)
