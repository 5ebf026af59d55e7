"""Fits: what is worked out from readings.

Law: a fit rests, in the end, on readings alone (and on sizes of parts and on choices); its formula, its group and its limit
agree in kind.
"""
from __future__ import annotations

from fractions import Fraction

from . import order, units
from .bands import span
from .dimensions import Leaf, in_words, kind_of
from .errors import Problems
from .formula import BadFormula, parse
from .known import leaf_names, leaves_of
from .nodes import Node, leaves
from .scaling import to_tree
from .yaml_lines import Lined

KINDS = {"point": "points", "size": "sizes", "choice": "choices"}  # kind of leaf -> the fit's list of them


def set_fits(proc: Lined, problems: Problems) -> None:
    """Gives every fit its tree, text, points, sizes, choices and dimension. Problems carry the line of the formula."""
    nodes = _parse_all(proc, problems)
    problems.stop_if_any()
    needs = {fit: [name for kind, name in leaves(node) if kind == "fit"] for fit, node in nodes.items()}
    circle = order.circle(needs)
    if circle:
        line = proc["fits"][circle[0]].lines["formula"]
        problems.add(line, f"These fits go in a circle: {order.in_words(circle, 'is worked out from')}.")
    problems.stop_if_any()
    known = leaves_of(proc)
    for fit in order.in_order(needs):
        _set_fit(proc, fit, nodes[fit], known, problems)
    problems.stop_if_any()


def _parse_all(proc: Lined, problems: Problems) -> dict[str, Node]:
    nodes: dict[str, Node] = {}
    names = leaf_names(proc)
    for fit, row in proc["fits"].items():
        if fit in proc["points"]:
            problems.add(proc["fits"].lines[fit], f"'{fit}' is both a point and a fit: give one another name.")
        try:
            nodes[fit] = parse(row["formula"], names)
        except BadFormula as error:
            problems.add(row.lines["formula"], f"Fit '{fit}': {error}")
    return nodes


def _set_fit(proc: Lined, fit: str, node: Node, known: dict[tuple[str, str], Leaf], problems: Problems) -> None:
    row = proc["fits"][fit]
    line = row.lines["formula"]
    try:
        known[("fit", fit)], row["tree"] = _worked(proc, row, node, known)
    except BadFormula as error:
        problems.add(line, f"Fit '{fit}': {error}")
        problems.stop_if_any()
    group = kind_of(node, known).group
    if group != row["group"]:
        problems.add(line, _wrong_group(fit, group, row["group"]))
    row["text"], row["dimension"], row["page"] = row.pop("formula"), known[("fit", fit)].dimension, fit.replace("_", "-")
    for kind, field in KINDS.items():
        row[field] = _rests_on(node, kind, field, proc)
    if not (row["points"] or row["sizes"]):
        problems.add(line, f"Fit '{fit}' rests on nothing that is read.")


def _worked(proc: Lined, row: Lined, node: Node, known: dict[tuple[str, str], Leaf]) -> tuple[Leaf, list]:
    powers = kind_of(node, known).powers
    dimension = units.dimension_of(powers)
    if not dimension:
        raise BadFormula(f"'{node.text}' gives {in_words(powers)}, which is no dimension that a figure can have.")
    low, high = (Fraction(end) for end in span(node, known))
    stations = len(proc["groups"][row["group"]]["stations"]) if row["group"] else 1
    return Leaf(dimension, row["group"], low, high, stations), to_tree(node, known)


def _wrong_group(fit: str, given: str, said: str) -> str:
    if given and said:
        return f"Fit '{fit}' gives one figure for each of {given}, but says its group is {said}."
    if given:
        return f"Fit '{fit}' gives one figure for each of {given}: add 'group: {given}', or take its spread or mean."
    return f"Fit '{fit}' gives a single figure, but says its group is {said}: leave the group out."


def _rests_on(node: Node, wanted: str, field: str, proc: Lined) -> list[str]:
    """Names of one kind of leaf, at any distance, in order of first mention. A choice counts without its column."""
    out: list[str] = []
    for kind, name in leaves(node):
        found = proc["fits"][name][field] if kind == "fit" else [name.partition(".")[0]] if kind == wanted else []
        out.extend(one for one in found if one not in out)
    return out
