"""Interference, growth with heat, clearances; and the tolerance tables put to use."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from .shop import Shop

SHOP = Shop("""\
choices:
  block_material: {title: Block material, table: materials}
  crank_material: {title: Crank material, table: materials}
  hole: {title: Tolerance of the hole, table: iso286_tolerances}
  shaft: {title: Deviation of the shaft, table: iso286_deviations}
groups:
  mains: {title: main, stations: [{id: "1", x: 10, y: 50}, {id: "2", x: 90, y: 50}, {id: "3", x: 50, y: 50}]}
points:
  inner: {title: Bore of the shaft, band: [1 mm, 30 mm]}
  seat: {title: Seat, band: [35 mm, 50 mm]}
  outer: {title: Outside of the jacket, band: [55 mm, 100 mm]}
  stress: {title: Tangential stress in the jacket, band: [1000 kPa, 500000 kPa]}
  poisson: {title: Poisson's ratio, band: ["0.1 :1", "0.5 :1"]}
  modulus: {title: Modulus, band: [50000000 kPa, 300000000 kPa]}
  press: {title: Interference, band: [0 mm, 1 mm]}
  spare: {title: Room to put it together, band: [0 mm, 1 mm]}
  bearing: {title: Bore, group: mains, band: [1.5 in, 4 in]}
  journal: {title: Journal, group: mains, band: [1.5 in, 4 in]}
  warmer: {title: Warmer by, band: [0 K, 200 K]}
  length: {title: Length as read, band: [1 mm, 1000 mm]}
  gap: {title: Ring gap in the gauge, band: [0 in, 0.2 in]}
  gauge: {title: Bore of the gauge, band: [2 in, 6 in]}
  cylinder: {title: Bore of the cylinder, band: [2 in, 6 in]}
fits:
  gap_in_cylinder: {title: Ring gap in the cylinder, formula: gap + pi * (cylinder - gauge)}
  # the jacket's stress at its bore is p (Do^2 + D^2) / (Do^2 - D^2)
  pressure: {title: Pressure in the joint, formula: "stress * (outer ** 2 - seat ** 2) / (outer ** 2 + seat ** 2)"}
  interference:
    title: Interference
    formula: "pressure * seat * (((outer ** 2 + seat ** 2) / (outer ** 2 - seat ** 2) + poisson) / modulus
      + ((seat ** 2 + inner ** 2) / (seat ** 2 - inner ** 2) - poisson) / modulus)"
  jacket_bore: {title: Bore of the jacket, formula: seat - interference}
  joint_pressure:
    title: Pressure of an interference
    formula: "press / (seat * (((outer ** 2 + seat ** 2) / (outer ** 2 - seat ** 2) + poisson) / modulus
      + ((seat ** 2 + inner ** 2) / (seat ** 2 - inner ** 2) - poisson) / modulus))"
  heating: {title: Heat to press it in, formula: "(press + spare) / (block_material.expansion * seat)"}
  clearance: {title: Clearance, group: mains, formula: bearing - journal}
  clearance_spread: {title: Spread, formula: spread(clearance)}
  clearance_mean: {title: Mean, formula: mean(clearance)}
  clearance_hot:
    title: Clearance hot
    group: mains
    formula: clearance + journal * (block_material.expansion - crank_material.expansion) * warmer
  growth: {title: Growth, group: mains, formula: journal * (block_material.expansion - crank_material.expansion) * warmer}
  at_20: {title: Length at 20 degrees, formula: length / (1 + block_material.expansion * warmer)}
  error_of_heat: {title: What the heat adds, formula: length - at_20}
  least_press: {title: Least interference, formula: shaft.ei - hole.it7 + spare}
  most_press: {title: Greatest interference, formula: shaft.ei + hole.it6 + spare}
""")
JOINT = {"inner": "20 mm", "seat": "40 mm", "outer": "60 mm", "modulus": "207000000 kPa", "poisson": "0.3 :1"}


def test_interference_pressure():
    """Lame: machine-design text, example 22.6, read and recomputed: 20/40/60 mm, E 207 GPa, 100 MPa at the jacket's bore:
    38.46 MPa in the joint, 0.03171 mm of interference, jacket bored to 39.96829 mm."""
    assert SHOP.gives("pressure", "kPa", stress="100000 kPa", **JOINT) == pytest.approx(38_460, rel=1e-3)
    assert SHOP.gives("interference", "mm", stress="100000 kPa", **JOINT) == pytest.approx(0.03171, abs=1e-5)
    assert SHOP.gives("jacket_bore", "mm", stress="100000 kPa", **JOINT) == pytest.approx(39.96829, abs=1e-5)
    assert SHOP.gives("joint_pressure", "kPa", press="0.03171 mm", **JOINT) == pytest.approx(38_460, rel=1e-3)


def test_heating_for_a_press_fit():
    """Constructed from the formula: 0.059 mm on 50 mm of steel 1020 (11.7e-6 per kelvin) takes 100.9 K."""
    found = SHOP.gives("heating", "K", choices={"block_material": "steel_1020"}, press="0.059 mm", spare="0 mm", seat="50 mm")
    assert found == pytest.approx(100.9, rel=0.001)


def test_growth_of_a_main_clearance():
    """Expansion coefficients read in a materials-science text; constructed: 2.5 in, 356 housing, 4340 crank, +80 K: +0.00184 in."""
    chosen = {"block_material": "aluminium_356", "crank_material": "steel_4340"}
    read = {"journal": ["2.5 in"] * 3, "bearing": ["2.5025 in"] * 3, "warmer": "80 K"}
    assert SHOP.gives("growth", "in", at="2", choices=chosen, **read) == pytest.approx(0.00184, abs=5e-7)
    assert SHOP.gives("clearance_hot", "in", at="2", choices=chosen, **read) == pytest.approx(0.0025 + 0.00184, abs=5e-7)


def test_length_at_20_degrees():
    """ISO 1; constructed: 100 mm of gauge steel (11.5e-6 per kelvin) at 25 degrees Celsius reads 5.75 um long. 1 %."""
    found = SHOP.gives("error_of_heat", "um", choices={"block_material": "gauge_steel"}, length="100 mm", warmer="5 K")
    assert found == pytest.approx(5.75, rel=0.01)


@pytest.mark.parametrize(
    ("hole", "shaft", "least", "most"), [("over_18_to_30", "s_over_18_to_30", 14, 48), ("over_30_to_50", "s_over_30_to_50", 18, 59)]
)
def test_interference_of_a_tolerance_pair(hole, shaft, least, most):
    """ISO 286-1, read: 20 H7/s6 presses 14 to 48 um, 50 H7/s6 18 to 59 um."""
    chosen = {"hole": hole, "shaft": shaft}
    assert SHOP.gives("least_press", "um", choices=chosen, spare="0 mm") == least
    assert SHOP.gives("most_press", "um", choices=chosen, spare="0 mm") == most


@given(st.integers(39900, 40100), st.integers(-30, 30), st.integers(100, 400))
def test_a_ring_opens_pi_times_what_its_bore_grows(bore, more, gap):
    """No published example: the ring's length stays, so its gap grows as the circumference does."""
    read = {"gauge": inches([bore])[0], "cylinder": inches([bore + more])[0], "gap": inches([gap])[0]}
    assert SHOP.gives("gap_in_cylinder", "in", **read) == pytest.approx((gap + math.pi * more) / 10000, abs=5e-8)


TENTHS = st.lists(st.integers(24000, 25000), min_size=3, max_size=3)


def inches(tenths: list[int]) -> list[str]:
    return [f"{t // 10000}.{t % 10000:04d} in" for t in tenths]


@given(TENTHS, TENTHS)
def test_clearance_is_bore_less_journal(bores, journals):
    """No published example: station by station, and what is taken over the stations."""
    read = {"bearing": inches(bores), "journal": inches(journals)}
    found = [SHOP.gives("clearance", "in", at=at, **read) for at in ("1", "2", "3")]
    wanted = [(b - j) / 10000 for b, j in zip(bores, journals, strict=True)]
    assert found == pytest.approx(wanted, abs=1e-9)
    assert SHOP.gives("clearance_spread", "in", **read) == pytest.approx(max(wanted) - min(wanted), abs=1e-9)
    assert SHOP.gives("clearance_mean", "in", **read) == pytest.approx(sum(wanted) / 3, abs=5e-8)
