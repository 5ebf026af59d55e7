"""Units against their published factors, and the kernel's own door for turning a figure over."""

from __future__ import annotations

from fractions import Fraction

import pytest
from catalogue.units import BY_ID, factor, offered
from kernel.door import answer

# NIST SP 811, appendix B, read: what one of a unit is in another.
FACTORS = [
    ("lbf.ft", "N.m", 1.355818, 1e-6),
    ("psi", "kPa", 6.894757, 1e-6),
    ("in3", "cm3", 16.387064, 1e-9),
    ("in", "mm", 25.4, 1e-12),
    ("thou", "um", 25.4, 1e-12),
    ("lbf", "N", 4.448222, 1e-6),
    ("bar", "kPa", 100, 1e-12),
    ("lbf/in", "N/mm", 0.1751268, 1e-6),
    ("ft/min", "m/s", 0.00508, 1e-9),
]


@pytest.mark.parametrize(("unit", "other", "published", "within"), FACTORS)
def test_factor(unit, other, published, within):
    assert float(factor(unit) / factor(other)) == pytest.approx(published, rel=within)


def test_the_power_constants():
    """Recomputed from NIST SP 811: hp is 33 000 lbf.ft a minute, so power = torque x speed / 5252.1131; in kW and N.m 9549.2966."""
    turn = 2 * 3.14159265358979323846
    assert 33000 / turn == pytest.approx(5252.1131, abs=5e-5)
    assert 60000 / turn == pytest.approx(9549.2966, abs=5e-5)
    horsepower = 550 * float(factor("lbf.ft") / factor("N.m"))
    assert horsepower == pytest.approx(745.69987, abs=5e-6)


def test_a_torque_typed_in_one_unit_reads_in_the_other_at_the_door():
    """40 lbf.ft is 54.233 N.m (NIST SP 811)."""
    table = offered({"torque"})
    found = answer({"op": "number", "text": "40", "from": table["lbf.ft"], "to": table["N.m"], "decimals": 3})
    assert found["written"] == "54.233"


@pytest.mark.parametrize("unit", list(BY_ID))
def test_every_unit_is_an_exact_ratio_fine_enough_for_a_gauge(unit):
    """A last digit as the unit is shown is at least ten grid units, so that rounding to the grid never shows."""
    digit = factor(unit) / 10 ** BY_ID[unit].decimals
    assert isinstance(digit, Fraction) and digit >= 10 or unit in ("money", "um")


def test_the_film_at_the_door():
    """4 ureyn, 30 rev/s, 500 lbf, r 0.75, c 0.0015, l 1.5 in: S 0.135 (machine-design text, from memory, recomputed)."""
    case = {"clearance": 76200, "journal": 38_100_000, "length": 38_100_000, "load": 2_224_110_808, "viscosity": 27579, "speed": 1_800_000}
    assert answer({"op": "film", "case": case})["sommerfeld"] == pytest.approx(135_000, rel=0.001)
