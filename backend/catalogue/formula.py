"""Formulas in plain text.

Law: a formula is read, never run. What is not in the list of docs/design/procedure-format.md is refused with a sentence.
"""
from __future__ import annotations

import ast
from collections.abc import Mapping
from fractions import Fraction

from .nodes import SEVERAL, SINGLE, STATIONS, BadFormula, Node
from .units import NUMBER, read_quantity

LONGEST = 400
DEEPEST = 24
DIGITS = 15
SIGNS = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/"}
MAY = "only + - * / **, pi, numbers, quantities in quotes, " + ", ".join((*STATIONS, *SINGLE)) + " and names"

Names = Mapping[str, object]  # kind of leaf -> the names there are; "choice" holds "choice.column"


def parse(formula: str, names: Mapping[str, Names]) -> Node:
    """The formula taken apart. BadFormula says what is wrong with it."""
    if len(formula) > LONGEST:
        raise BadFormula(f"A formula has at most {LONGEST} characters: make parts of it fits of their own.")
    try:
        body = ast.parse(formula, mode="eval").body
    except (SyntaxError, ValueError, RecursionError, MemoryError):
        raise BadFormula(f"'{formula}' is not a formula. Write it like 'main_bore - main_journal'.") from None
    if _depth(body) > DEEPEST:
        raise BadFormula(f"The formula is nested more than {DEEPEST} deep: make parts of it fits of their own.")
    return _Reader(formula, names).node(body)


def _depth(body: ast.expr) -> int:
    depth, level = 0, [body]
    while level:
        depth += 1
        level = [child for node in level for child in ast.iter_child_nodes(node) if isinstance(child, ast.expr)]
    return depth


class _Reader:
    """Goes down one formula; holds its text and the names it may use."""

    def __init__(self, formula: str, names: Mapping[str, Names]) -> None:
        self.formula = formula
        self.names = names

    def node(self, node: ast.expr) -> Node:
        if isinstance(node, ast.Name):
            return self._name(node)
        if isinstance(node, ast.Attribute):
            return self._column(node)
        if isinstance(node, ast.Constant):
            return self._constant(node)
        if isinstance(node, ast.Call):
            return self._call(node)
        if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
            return Node("neg", self._text(node), (self.node(node.operand),))
        if isinstance(node, ast.BinOp) and type(node.op) in SIGNS:
            return Node(SIGNS[type(node.op)], self._text(node), (self.node(node.left), self.node(node.right)))
        if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Pow):
            return Node("**", self._text(node), (self.node(node.left),), power=self._power(node.right))
        raise BadFormula(f"'{self._text(node)}' cannot be used in a formula: {MAY}.")

    def _text(self, node: ast.expr) -> str:
        return ast.get_source_segment(self.formula, node) or ast.unparse(node)

    def _name(self, node: ast.Name) -> Node:
        if node.id == "pi":
            return Node("pi", node.id)
        for kind in ("point", "fit"):
            if node.id in self.names[kind]:
                return Node(kind, node.id, name=node.id)
        raise BadFormula(f"'{node.id}' is neither a point nor a fit of this procedure.")

    def _column(self, node: ast.Attribute) -> Node:
        text = self._text(node)
        if text not in self.names["choice"]:
            raise BadFormula(f"'{text}' cannot be used in a formula: it is not a column of one of the choices.")
        return Node("choice", text, name=text)

    def _constant(self, node: ast.Constant) -> Node:
        if isinstance(node.value, str):
            return _quantity(node.value)
        text = self._text(node)
        if type(node.value) in (int, float) and NUMBER.fullmatch(text) and len(text) <= DIGITS:
            return Node("pure", text, number=Fraction(text))
        raise BadFormula(f"'{text}' cannot be used in a formula: write a number in plain digits, with at most {DIGITS} of them.")

    def _power(self, node: ast.expr) -> int:
        if isinstance(node, ast.Constant) and type(node.value) is int and 2 <= node.value <= 4:
            return node.value
        raise BadFormula(f"The power '{self._text(node)}' must be a whole number from 2 to 4.")

    def _call(self, node: ast.Call) -> Node:
        called, text = self._text(node.func), self._text(node)
        if node.keywords or any(isinstance(argument, ast.Starred) for argument in node.args):
            raise BadFormula(f"'{called}' takes plain arguments only.")
        if called == "size":
            return self._size(node)
        if called not in STATIONS and called not in SINGLE:
            raise BadFormula(f"'{called}' is not known. A formula may use {', '.join((*STATIONS, *SINGLE))} and size.")
        if len(node.args) != 1 and not (len(node.args) > 1 and called in SEVERAL):
            raise BadFormula(f"'{called}' takes one thing.")
        return Node(called, text, tuple(self.node(argument) for argument in node.args))

    def _size(self, node: ast.Call) -> Node:
        slot = self._text(node.args[0]) if len(node.args) == 1 else ""
        if slot not in self.names["size"]:
            raise BadFormula(f"'size' takes the name of one slot of this procedure, not '{slot}'.")
        return Node("size", self._text(node), name=slot)


def _quantity(text: str) -> Node:
    try:
        quantity = read_quantity(text)
    except ValueError as error:
        raise BadFormula(str(error)) from None
    return Node("quantity", f"'{text}'", number=Fraction(quantity.value), dimension=quantity.dimension)
