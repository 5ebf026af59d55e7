"""Quantities and dimensions, and the only place where pint lives.

Law: a unit is an exact ratio num/den of grid base units per unit. pint works in fractions here, so no factor has passed
through a float; a quantity reaches the grid rounded half away from zero.
"""
from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from typing import Any, NamedTuple

import pint
from pint.util import UnitsContainer

from .unit_table import BY_ID, DEFINITIONS, GRID, UNITS, Unit

Dims = Any  # powers of base dimensions, as pint keeps them: {"[length]": 2}

NUMBER = re.compile(r"-?[0-9]{1,15}(\.[0-9]{1,15})?")
LARGEST = 2**53 - 1  # a phone's JSON carries no larger integer exactly
PURE: Dims = UnitsContainer()


class Quantity(NamedTuple):
    """`value` counts grid base units of `dimension`; `text` is as written."""

    value: int
    dimension: str
    text: str

    @property
    def unit(self) -> str:
        return self.text.partition(" ")[2].strip()


def new_registry(number: type) -> pint.UnitRegistry:
    """pint with the trade's own definitions, working in `number`."""
    made: pint.UnitRegistry = pint.UnitRegistry(non_int_type=number)
    for line in DEFINITIONS:
        made.define(line)
    return made


@lru_cache(maxsize=1)
def registry() -> pint.UnitRegistry:
    """pint in exact fractions. Made once: it takes most of a second."""
    return new_registry(Fraction)


@lru_cache(maxsize=None)
def factor(unit_id: str) -> Fraction:
    """Grid base units in one unit, exactly. Raises KeyError for a unit that is not in the table."""
    unit = BY_ID[unit_id]
    base = registry().Quantity(Fraction(1), unit.expression).to(GRID[unit.dimension])
    return Fraction(base.magnitude)


@lru_cache(maxsize=None)
def grain(dimension: str) -> Fraction:
    """One grid base unit in coherent units (kilogram, metre, second, kelvin; angles in degrees), exactly."""
    if dimension == "angle":
        return 1 / factor("deg")
    return Fraction(registry().Quantity(Fraction(1), GRID[dimension]).to_base_units().magnitude)


@lru_cache(maxsize=None)
def dims(dimension: str) -> Dims:
    """The powers of base dimensions that a dimension of the grid is made of. An angle is one of its own."""
    if dimension == "angle":
        return UnitsContainer({"[angle]": Fraction(1)})
    return registry().Quantity(Fraction(1), GRID[dimension]).dimensionality


def dimension_of(powers: Dims) -> str:
    """The dimension of the grid with these powers, or ''."""
    return next((name for name in GRID if dims(name) == powers), "")


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
    value = on_grid(Fraction(number) * factor(unit_id))
    if abs(value) > LARGEST:
        raise ValueError(f"'{text}' is larger than anything that can be kept exactly.")
    return Quantity(value, BY_ID[unit_id].dimension, text.strip())


def on_grid(exact: Fraction) -> int:
    """The nearest integer; halves go away from zero."""
    size = (2 * abs(exact.numerator) + exact.denominator) // (2 * exact.denominator)
    return size if exact >= 0 else -size


def can_add(left: str, right: str) -> bool:
    """Whether two dimensions of the grid may be added."""
    return bool(dims(left) == dims(right))


def offered(dimensions: set[str]) -> dict[str, dict[str, object]]:
    """The units table that travels with a procedure: the units a phone may offer for these dimensions."""
    chosen = [unit for unit in UNITS if unit.offered and unit.dimension in dimensions]
    return {unit.id: _row(unit) for unit in chosen}


def _row(unit: Unit) -> dict[str, object]:
    exact = factor(unit.id)
    return {"dimension": unit.dimension, "num": exact.numerator, "den": exact.denominator,
            "decimals": unit.decimals, "label": unit.label}
