"""What a formula may name, and what is known of each before any fit is worked out."""
from __future__ import annotations

from fractions import Fraction

from .dimensions import Leaf
from .units import grain
from .yaml_lines import Lined

MOST_PARTS = 99  # in one slot that holds many


def leaf_names(proc: Lined) -> dict[str, dict]:
    """Kind of leaf -> the names there are. A column that some option leaves empty is not one: it might be chosen."""
    columns = {f"{choice}.{column}": None for choice, row in proc["choices"].items() for column in _full_columns(row)}
    return {"point": proc["points"], "fit": proc["fits"], "size": proc["slots"], "choice": columns}


def leaves_of(proc: Lined) -> dict[tuple[str, str], Leaf]:
    """Points, sizes of parts and columns of choices, with what bounds their figures."""
    out: dict[tuple[str, str], Leaf] = {}
    for name, row in proc["points"].items():
        out[("point", name)] = _leaf(proc, row["dimension"], row["group"], row["band"])
    for name, row in proc["slots"].items():
        kind = proc["parts"][row["part"]]
        low, high = kind["band"]
        band = [low, high] if row["holds"] == "one" else [min(0, low * MOST_PARTS), max(0, high * MOST_PARTS)]
        out[("size", name)] = _leaf(proc, kind["dimension"], row["group"], band)
    for choice, row in proc["choices"].items():
        for column in _full_columns(row):
            values = [option["values"][column] for option in row["options"]]
            out[("choice", f"{choice}.{column}")] = _leaf(proc, row["columns"][column], "", [min(values), max(values)])
    return out


def _leaf(proc: Lined, dimension: str, group: str, band: list[int]) -> Leaf:
    one = grain(dimension)
    stations = len(proc["groups"][group]["stations"]) if group else 1
    return Leaf(dimension, group, Fraction(band[0]) * one, Fraction(band[1]) * one, stations)


def _full_columns(row: Lined) -> list[str]:
    return [column for column in row["columns"] if all(column in option["values"] for option in row["options"])]
