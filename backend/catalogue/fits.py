"""Fits: what is worked out from readings.

Law: a fit rests, in the end, on points alone; its formula, its group and its limit agree in kind.
"""
from __future__ import annotations

from . import order
from .dimensions import Kind, kind_of
from .errors import Problems
from .formula import BadFormula, Tree, names, parse
from .yaml_lines import Lined


def set_fits(proc: Lined, problems: Problems) -> None:
    """Gives every fit its tree, text, points and dimension. Problems carry the line of the formula."""
    trees, numbers = _parse_all(proc, problems)
    problems.stop_if_any()
    needs = {fit: [name for kind, name in names(tree) if kind == "fit"] for fit, tree in trees.items()}
    circle = order.circle(needs)
    if circle:
        line = proc["fits"][circle[0]].lines["formula"]
        problems.add(line, f"These fits go in a circle: {order.in_words(circle, 'is worked out from')}.")
    problems.stop_if_any()
    known = {name: Kind(point["dimension"], point["group"]) for name, point in proc["points"].items()}
    for fit in order.in_order(needs):
        _set_fit(proc, fit, trees, known, numbers[fit], problems)
    problems.stop_if_any()


def _parse_all(proc: Lined, problems: Problems) -> tuple[dict[str, Tree], dict[str, dict[int, str]]]:
    trees: dict[str, Tree] = {}
    numbers: dict[str, dict[int, str]] = {}
    for fit, row in proc["fits"].items():
        if fit in proc["points"]:
            problems.add(proc["fits"].lines[fit], f"'{fit}' is both a point and a fit: give one another name.")
        try:
            trees[fit], numbers[fit] = parse(row["formula"], set(proc["points"]), set(proc["fits"]))
        except BadFormula as error:
            problems.add(row.lines["formula"], f"Fit '{fit}': {error}")
    return trees, numbers


def _set_fit(proc: Lined, fit: str, trees: dict[str, Tree], known: dict[str, Kind], numbers: dict[int, str],
             problems: Problems) -> None:
    row, tree = proc["fits"][fit], trees[fit]
    try:
        kind = kind_of(tree, known, numbers)
    except BadFormula as error:
        problems.add(row.lines["formula"], f"Fit '{fit}': {error}")
        problems.stop_if_any()
        return
    if kind.group != row["group"]:
        problems.add(row.lines["formula"], _wrong_group(fit, kind.group, row["group"]))
    known[fit] = Kind(kind.dimension, row["group"])
    row["tree"], row["text"], row["dimension"] = tree, row.pop("formula"), kind.dimension
    row["points"] = _points(tree, proc)
    if not row["points"]:
        problems.add(row.lines["formula"], f"Fit '{fit}' rests on nothing that is read.")


def _wrong_group(fit: str, given: str, said: str) -> str:
    if given and said:
        return f"Fit '{fit}' gives one figure for each of {given}, but says its group is {said}."
    if given:
        return f"Fit '{fit}' gives one figure for each of {given}: add 'group: {given}', or take its spread or mean."
    return f"Fit '{fit}' gives a single figure, but says its group is {said}: leave the group out."


def _points(tree: Tree, proc: Lined) -> list[str]:
    out: list[str] = []
    for kind, name in names(tree):
        for point in [name] if kind == "point" else proc["fits"][name]["points"]:
            if point not in out:
                out.append(point)
    return out
