"""Figures as a person wants to read them.

Law: the same digits everywhere. A fit (a clearance, an end play) reads in thou, inch or mm; a size (a bore) in inch or mm.
What nobody chooses units for (a ratio, a volume, a speed) is shown in the unit its procedure names: `%`, `:1`, `rpm`.
"""
from __future__ import annotations

from .quantity import write

MINUS = "−"
DASH = "–"
_CLOSE = ("°", ":1")  # written close to the digits
_OTHER_LENGTHS = {"thou": ["in", "mm"], "in": ["thou", "mm"], "mm": ["thou", "in"]}
# What else is measured: the unit beside inches and the unit beside millimetres.
_BESIDE_LENGTH = {
    "pressure": ("psi", "kPa"), "force": ("lbf", "N"), "stiffness": ("lbf/in", "N/mm"), "velocity": ("ft/min", "m/s"),
    "torque": ("lbf.ft", "N.m"),
}


def scale_of(spec: dict) -> str:
    """How a point or fit is shown: what a person chooses units for by its scale, the rest in the unit it is written in."""
    if spec["dimension"] == "length" or spec["dimension"] in _BESIDE_LENGTH:
        return spec["scale"]
    return spec.get("unit") or spec["scale"]


class Shown:
    """Writes values for one person: the unit table of a procedure and the person's units."""

    def __init__(self, table: dict, units: dict):
        self.table = table
        self.units = units

    def unit(self, dimension: str, scale: str) -> str:
        """Id of the unit this person reads such a value in; `scale` is size, fit or the id of a unit."""
        if scale in self.table:
            return scale
        if dimension == "length":
            length = self.units["length"]
            return "in" if scale == "size" and length == "thou" else length
        if dimension == "torque":
            return self.units["torque"]
        if dimension in _BESIDE_LENGTH:
            return _BESIDE_LENGTH[dimension][1 if self.units["length"] == "mm" else 0]
        return self._only(dimension)

    def _only(self, dimension: str) -> str:
        """The first unit of a dimension by name, so that every runtime picks the same."""
        names = [name for name in self.table if self.table[name]["dimension"] == dimension]
        if not names:
            raise KeyError(dimension)
        return min(names)

    def others(self, dimension: str, scale: str) -> list[str]:
        """Ids of the units to show small beside it."""
        if dimension in _BESIDE_LENGTH:
            own = self.unit(dimension, scale)
            return [name for name in _BESIDE_LENGTH[dimension] if name != own and name in self.table]
        if dimension != "length" or scale in self.table:
            return []
        if scale == "size":
            return ["in"] if self.units["length"] == "mm" else ["mm"]
        return _OTHER_LENGTHS[self.units["length"]]

    def label(self, unit: str) -> str:
        return self.table[unit]["label"]

    def figure(self, value: int, unit: str, decimals: int | None = None) -> str:
        """Digits alone: `2.2`."""
        places = self.table[unit]["decimals"] if decimals is None else decimals
        text = write(value, self.table[unit], places)
        return MINUS + text[1:] if text[0] == "-" else text

    def full(self, value: int, unit: str, decimals: int | None = None) -> str:
        """Digits and unit: `2.2 thou`, `90.0°`."""
        label = self.label(unit)
        return self.figure(value, unit, decimals) + ("" if label in _CLOSE else " ") + label

    def own(self, value: int, dimension: str, scale: str) -> str:
        return self.full(value, self.unit(dimension, scale))

    def beside(self, value: int, dimension: str, scale: str) -> list[str]:
        return [self.full(value, unit) for unit in self.others(dimension, scale)]
