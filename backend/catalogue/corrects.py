"""Corrections: which method works with which of the procedure's names.

Law: a method has all it needs and nothing it does not know; what it would change, its fit rests on.
"""
from __future__ import annotations

from typing import NamedTuple

from .errors import Problems
from .names import refers
from .unit_table import a
from .yaml_lines import Lined, LinedList


class Method(NamedTuple):
    needs: tuple[str, ...]
    may: tuple[str, ...] = ()


METHODS = {
    "shells": Method(("fit", "slots"), ("bare", "level")),
    "shims": Method(("fit", "slot")),
    "match": Method(("fit", "slot"), ("level",)),
    "swap": Method(("fit", "slot"), ("also",)),
    "cut": Method(("fit", "point", "moves", "by")),
    "rings": Method(("fit", "point")),
    "buckets": Method(("fits", "slots", "step")),
    "springs": Method(("fit",), ("down", "up")),
    "length": Method(("fit", "step")),
    "turns": Method(("fit", "pitch"), ("ratio", "moves")),
}


def list_corrects(proc: Lined) -> None:
    """`corrects` of every step as a list."""
    for step in proc["steps"]:
        given = step["corrects"]
        if not isinstance(given, LinedList):
            step["corrects"] = LinedList([given] if given else [])


def check_names(corrects: Lined, proc: Lined, problems: Problems) -> None:
    """What a correction names is there, and it has the fields of its method."""
    figures = set(proc["points"]) | set(proc["fits"])
    known = {"fit": (proc["fits"], "fit"), "fits": (proc["fits"], "fit"), "also": (proc["fits"], "fit"), "level": (proc["fits"], "fit"),
             "bare": (proc["points"], "point"), "point": (proc["points"], "point"), "ratio": (figures, "point or fit"),
             "slots": (proc["slots"], "slot"), "slot": (proc["slots"], "slot"), "down": (proc["slots"], "slot"), "up": (proc["slots"], "slot")}
    for field, (there, what) in known.items():
        refers(corrects, field, there, what, problems)
    method = METHODS.get(corrects["method"])
    if method is None:
        problems.add(corrects.line, f"'method' must be one of {', '.join(METHODS)}, not '{corrects['method']}'.")
        return
    for field, value in corrects.items():
        if field in method.needs and not value:
            problems.add(corrects.line, f"A correction by {corrects['method']} needs '{field}'.")
        elif value and field not in ("method", *method.needs, *method.may):
            problems.add(corrects.lines[field], f"A correction by {corrects['method']} has no '{field}'.")
    _check_counts(corrects, problems)


def _check_counts(corrects: Lined, problems: Problems) -> None:
    if corrects["method"] == "shells" and len(corrects["slots"]) not in (1, 2):
        problems.add(corrects.line, "A correction by shells has two slots, [upper, lower].")
    if corrects["method"] == "buckets" and corrects["fits"] and len(corrects["fits"]) != len(corrects["slots"]):
        problems.add(corrects.line, "A correction by buckets has one slot for each of its fits, in the same order.")
    if corrects["method"] == "springs" and not (corrects["down"] or corrects["up"]):
        problems.add(corrects.line, "A correction by springs needs 'down' or 'up'.")


def set_figures(proc: Lined, problems: Problems) -> None:
    """Steps and pitches on the grid, in the dimension of their fit; and the fit rests on what the method changes."""
    for step in proc["steps"]:
        for corrects in step["corrects"]:
            fits = corrects["fits"] or [corrects["fit"]]
            for field in ("step", "pitch"):
                _set_figure(corrects, field, proc, fits, problems)
            _check_rests(corrects, proc, problems)


def _set_figure(corrects: Lined, field: str, proc: Lined, fits: list[str], problems: Problems) -> None:
    figure = corrects[field]
    if figure is None:
        return
    for fit in fits:
        dimension = proc["fits"][fit]["dimension"]
        if figure.dimension != dimension:
            problems.add(corrects.lines[field], f"'{field}' is {a(figure.dimension)}, but the fit '{fit}' is {a(dimension)}.")
    if figure.value <= 0:
        problems.add(corrects.lines[field], f"'{field}' must be more than nothing, not {figure.text}.")
    corrects[field] = figure.value


def _check_rests(corrects: Lined, proc: Lined, problems: Problems) -> None:
    if corrects["method"] in ("match", "swap"):
        slot, fit = corrects["slot"], proc["fits"][corrects["fit"]]
        if slot not in fit["sizes"]:
            problems.add(corrects.line, f"'{corrects['fit']}' does not rest on size({slot}): other parts there would not change it.")
    if corrects["method"] in ("cut", "rings") and corrects["point"] not in proc["fits"][corrects["fit"]]["points"]:
        problems.add(corrects.line, f"'{corrects['fit']}' does not rest on '{corrects['point']}': working on that would not change it.")
