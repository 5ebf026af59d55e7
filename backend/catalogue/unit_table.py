"""The units a procedure may be written in, and the base unit of each dimension on the number grid.

Law: every unit here is a plain factor. Degrees Celsius and Fahrenheit are left out: they have an offset, and a factor alone
cannot say that. `:1` and `in/in` are pure numbers, `deg` is not: an angle never meets a pure number except through sin, cos.
"""
from __future__ import annotations

from typing import NamedTuple


class Unit(NamedTuple):
    """`decimals`: digits shown after the point. `offered`: the phone may offer it for typing and showing."""

    id: str
    expression: str
    dimension: str
    decimals: int
    label: str
    offered: bool = True


# What pint does not know, or knows otherwise: its rpm carries 2 pi, on an engine a turn is a pure number.
DEFINITIONS = ("turn_per_minute = 1 / minute", "money = [money]")

# Base unit of each dimension on the number grid.
GRID = {
    "length": "nanometer", "angle": "microdegree", "area": "micrometer ** 2", "volume": "nanoliter", "mass": "microgram",
    "force": "micronewton", "torque": "micronewton * meter", "pressure": "millipascal", "stiffness": "millinewton / meter",
    "temperature": "millikelvin", "expansion": "1 / gigakelvin", "time": "millisecond", "speed": "milliturn_per_minute",
    "velocity": "micrometer / second", "viscosity": "micropascal * second", "kinematic_viscosity": "micrometer ** 2 / second",
    "ratio": "ppm", "money": "centimoney",
}

UNITS = (
    Unit("in", "inch", "length", 4, "in"),
    Unit("thou", "thou", "length", 1, "thou"),
    Unit("mm", "millimeter", "length", 3, "mm"),
    Unit("um", "micrometer", "length", 0, "µm", offered=False),
    Unit("lbf.ft", "force_pound * foot", "torque", 0, "lbf·ft"),
    Unit("N.m", "newton * meter", "torque", 0, "N·m"),
    Unit("lbf.in", "force_pound * inch", "torque", 0, "lbf·in", offered=False),
    Unit("deg", "degree", "angle", 1, "°"),
    Unit("psi", "psi", "pressure", 1, "psi"),
    Unit("kPa", "kilopascal", "pressure", 0, "kPa"),
    Unit("bar", "bar", "pressure", 2, "bar"),
    Unit("MPa", "megapascal", "pressure", 0, "MPa", offered=False),
    Unit("GPa", "gigapascal", "pressure", 1, "GPa", offered=False),
    Unit("ksi", "ksi", "pressure", 0, "ksi", offered=False),
    Unit("g", "gram", "mass", 1, "g"),
    Unit("lbf", "force_pound", "force", 0, "lbf"),
    Unit("N", "newton", "force", 0, "N"),
    Unit("lbf/in", "force_pound / inch", "stiffness", 0, "lbf/in"),
    Unit("N/mm", "newton / millimeter", "stiffness", 1, "N/mm"),
    Unit("K", "kelvin", "temperature", 1, "K"),
    Unit("um/m/K", "micrometer / meter / kelvin", "expansion", 1, "µm/m·K"),
    Unit("cm3", "cm ** 3", "volume", 1, "cm³"),
    Unit("in3", "inch ** 3", "volume", 2, "in³"),
    Unit("mm2", "millimeter ** 2", "area", 1, "mm²"),
    Unit("in2", "inch ** 2", "area", 4, "in²"),
    Unit("s", "second", "time", 1, "s"),
    Unit("rpm", "turn_per_minute", "speed", 0, "rpm"),
    Unit("ft/min", "foot / minute", "velocity", 0, "ft/min"),
    Unit("m/s", "meter / second", "velocity", 1, "m/s"),
    Unit("mPa.s", "millipascal * second", "viscosity", 2, "mPa·s"),
    Unit("mm2/s", "millimeter ** 2 / second", "kinematic_viscosity", 1, "mm²/s"),
    Unit("%", "percent", "ratio", 1, "%"),
    Unit(":1", "dimensionless", "ratio", 2, ":1"),
    Unit("in/in", "inch / inch", "ratio", 5, "in/in", offered=False),
    Unit("mm/mm", "millimeter / millimeter", "ratio", 5, "mm/mm", offered=False),
    Unit("money", "money", "money", 2, ""),
)
BY_ID = {unit.id: unit for unit in UNITS}


def a(dimension: str) -> str:
    """'an angle', 'a length': how a sentence says it."""
    return ("an " if dimension[:1] in "aeiou" else "a ") + dimension.replace("_", " ")
