"""Units, and the only place where pint lives.

Law: a unit is an exact ratio num/den of grid base units per unit. pint works in fractions here, so no factor has passed
through a float; a quantity reaches the grid rounded half away from zero.
"""
from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

import pint


class Unit(NamedTuple):
    """`decimals`: digits shown after the point. `offered`: the phone may offer it for typing and showing."""

    id: str
    expression: str
    dimension: str
    decimals: int
    label: str
    offered: bool = True


class Quantity(NamedTuple):
    """`value` counts grid base units of `dimension`; `text` is as written."""

    value: int
    dimension: str
    text: str


# Base unit of each dimension on the number grid.
GRID = {
    "length": "nanometer", "angle": "microdegree", "volume": "nanoliter", "mass": "microgram", "force": "micronewton",
    "torque": "micronewton * meter", "pressure": "millipascal", "temperature": "millikelvin", "time": "millisecond",
    "ratio": "ppm",
}

# Degrees Celsius and Fahrenheit are left out: they have an offset, and a factor alone cannot say that.
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
    Unit("g", "gram", "mass", 1, "g"),
    Unit("lbf", "force_pound", "force", 0, "lbf"),
    Unit("N", "newton", "force", 0, "N"),
    Unit("K", "kelvin", "temperature", 1, "K"),
    Unit("cm3", "cm ** 3", "volume", 1, "cm³"),
    Unit("s", "second", "time", 1, "s"),
    Unit("%", "percent", "ratio", 1, "%"),
)
BY_ID = {unit.id: unit for unit in UNITS}
NUMBER = re.compile(r"-?[0-9]+(\.[0-9]+)?")


@lru_cache(maxsize=1)
def registry() -> pint.UnitRegistry:
    """pint in exact fractions. Made once: it takes most of a second."""
    return pint.UnitRegistry(non_int_type=Fraction)


@lru_cache(maxsize=None)
def factor(unit_id: str) -> Fraction:
    """Grid base units in one unit, exactly. Raises KeyError for a unit that is not in the table."""
    unit = BY_ID[unit_id]
    base = registry().Quantity(Fraction(1), unit.expression).to(GRID[unit.dimension])
    return Fraction(base.magnitude)


def read_quantity(text: str) -> Quantity:
    """'0.0020 in' as a Quantity. Raises ValueError with a plain sentence."""
    number, _, unit_id = text.strip().partition(" ")
    unit_id = unit_id.strip()
    if not NUMBER.fullmatch(number):
        raise ValueError(f"'{text}' is not a quantity: write a number, a space and a unit, such as '0.0020 in'.")
    if not unit_id:
        raise ValueError(f"'{text}' has no unit: write the number, a space and a unit, such as '{number} in'.")
    if unit_id not in BY_ID:
        raise ValueError(f"The unit '{unit_id}' is not known. Known units: {', '.join(BY_ID)}.")
    return Quantity(on_grid(Fraction(number) * factor(unit_id)), BY_ID[unit_id].dimension, text)


def on_grid(exact: Fraction) -> int:
    """The nearest integer; halves go away from zero."""
    size = (2 * abs(exact.numerator) + exact.denominator) // (2 * exact.denominator)
    return size if exact >= 0 else -size


def can_add(left: str, right: str) -> bool:
    """Whether two dimensions may be added. pint judges; angle and ratio, both plain numbers to pint, are kept apart."""
    try:
        registry().Quantity(Fraction(1), GRID[left]) + registry().Quantity(Fraction(1), GRID[right])
    except pint.DimensionalityError:
        return False
    return left == right


def offered(dimensions: set[str]) -> dict[str, dict[str, object]]:
    """The units table that travels with a procedure: the units a phone may offer for these dimensions."""
    chosen = [unit for unit in UNITS if unit.offered and unit.dimension in dimensions]
    return {unit.id: _row(unit) for unit in chosen}


def _row(unit: Unit) -> dict[str, object]:
    exact = factor(unit.id)
    return {"dimension": unit.dimension, "num": exact.numerator, "den": exact.denominator,
            "decimals": unit.decimals, "label": unit.label}
