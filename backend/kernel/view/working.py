"""How a figure came about, in one line."""
from __future__ import annotations

from ..events import spot_of
from ..fits import current
from ..show import DASH, MINUS, scale_of
from .amount import amount, reading_figure
from .lens import Lens

_OPERATORS = {"+": " + ", "-": " " + MINUS + " "}
_SIGNS = (("**2", "²"), ("**3", "³"), (" * ", " × "), (" - ", " " + MINUS + " "))
_MARKS = {",": ";", "'": ""}  # titles have commas of their own; quotes belong to the file
LONGEST = 90  # characters that fit on three lines of a phone


def working(lens: Lens, fit: dict) -> str:
    """The formula with its readings put in: `2.4502 − 2.4480`; in words where more than sums and differences of readings
    is in it. Empty for a direct reading, for one over all stations, and for words too long for a glance."""
    spec = lens.procedure["fits"][fit["fit"]]
    tree = spec["tree"]
    if fit["value"] is None or tree[0] in ("point", "fit") or (len(tree) == 2 and tree[0] not in _OPERATORS):
        return ""
    return _written(lens, tree, fit["station"], _scale_of(lens, spec)) if _is_plain(tree) else _in_words(lens, spec["text"])


def _scale_of(lens: Lens, spec: dict) -> str:
    """How part sizes in a working are shown: as the readings beside them are."""
    return scale_of(lens.procedure["points"][spec["points"][0]]) if spec["points"] else "size"


def _is_plain(tree: list) -> bool:
    """Whether a tree is readings and fits, added and taken off, and nothing else."""
    todo = [tree]
    while todo:
        node = todo.pop()
        if node[0] in _OPERATORS:
            todo = todo + [node[1], node[2]]
        elif node[0] not in ("point", "fit", "size"):
            return False
    return True


def _written(lens: Lens, tree: list, station: str, scale: str) -> str:
    if tree[0] in _OPERATORS:
        return _written(lens, tree[1], station, scale) + _OPERATORS[tree[0]] + _written(lens, tree[2], station, scale)
    if tree[0] == "fit":
        found = lens.build.figure_of("fit", tree[1], station)
        return DASH if found["value"] is None else amount(lens, tree[1], found["value"])
    if tree[0] == "size":
        return _size_written(lens, tree[1], station, scale)
    point = lens.procedure["points"][tree[1]]
    reading = current(lens.build, spot_of(tree[1], station if point["group"] else ""))
    if reading is None:
        return DASH
    return reading_figure(lens, point, reading)


def _size_written(lens: Lens, slot_name: str, station: str, scale: str) -> str:
    """The sizes of the parts in a slot: `0.0400`, or `5.0 + 2.0` for a stack."""
    slot = lens.procedure["slots"][slot_name]
    kind = lens.procedure["parts"][slot["part"]]
    names = lens.build.slot_parts(slot_name, station if slot["group"] else "")
    parts = lens.build.parts
    sizes = [parts[name]["size"] for name in names if name in parts and parts[name]["size"] is not None]
    if len(sizes) < len(names) or not names:
        return DASH
    unit = lens.shown.unit(kind["dimension"], scale)
    return " + ".join([lens.shown.figure(size, unit) for size in sizes])


def _in_words(lens: Lens, formula: str) -> str:
    """A formula with titles for names: `2 × stroke × redline`. Empty when it is too long to be read at a glance."""
    out, at = "", 0
    while at < len(formula):
        end = at
        while end < len(formula) and (formula[end].isalpha() or formula[end].isdigit() or formula[end] in "_."):
            end += 1
        out += _title(lens, formula[at:end]) if end > at else _MARKS.get(formula[at], formula[at])
        at = max(end, at + 1)
    for written, shown in _SIGNS:
        out = out.replace(written, shown)
    return out if len(out) <= LONGEST else ""


def _title(lens: Lens, word: str) -> str:
    """The title of a point, fit, slot or choice, small where it stands in a line; any other word as it is."""
    name = word.partition(".")[0]
    for table in ("points", "fits", "slots", "choices"):
        if name in lens.procedure.get(table, {}):
            title = lens.procedure[table][name]["title"]
            return title[:1].lower() + title[1:]
    return word
