"""Helical springs: rate, coils, loads, lengths, and the valve spring margins that have no published example."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from .shop import Shop

SHOP = Shop("""\
points:
  wire: {title: Wire, band: [0.5 mm, 20 mm]}
  coil: {title: Mean diameter of the coil, band: [5 mm, 200 mm]}
  coils: {title: Working coils, band: ["2 :1", "20 :1"]}
  shear: {title: Shear modulus, band: [60000000 kPa, 90000000 kPa]}
  squeeze: {title: Squeezed by, band: [1 mm, 100 mm]}
  load: {title: Load, band: [1 N, 5000 N]}
  free: {title: Free length, band: [0.5 in, 5 in]}
  installed: {title: Installed height, band: [0.5 in, 4 in]}
  lift: {title: Valve lift, band: [0 in, 1 in]}
  solid: {title: Solid height, band: [0.3 in, 3 in]}
  closed_load: {title: Load closed, band: [0 N, 5000 N]}
  open_load: {title: Load open, band: [0 N, 5000 N]}
fits:
  rate: {title: Spring rate, formula: shear * wire ** 4 / (8 * coil ** 3 * coils)}
  wanted_rate: {title: Rate wanted, formula: (open_load - closed_load) / squeeze}
  load_rate: {title: Rate from a load, formula: load / squeeze}
  wanted_coils: {title: Working coils wanted, formula: shear * wire ** 4 / (8 * coil ** 3 * load_rate)}
  solid_of_coils: {title: Solid height, formula: (coils + 2) * wire}
  free_with_clash: {title: Free length, formula: solid_of_coils + 1.15 * open_load / rate}
  seat_load: {title: Seat load, formula: rate * (free - installed)}
  open_height: {title: Height open, formula: installed - lift}
  full_load: {title: Open load, formula: rate * (free - open_height)}
  coil_bind_margin: {title: Coil-bind margin, formula: installed - lift - solid}
""")
# A machine-design text (its worked examples are public as a Scilab companion, no. 764): read and recomputed.
MODULUS = "81370000 kPa"


def test_spring_for_a_load():
    """Example 10.1: 1250 N over 30 mm, wire 7, coil 42 mm: 7.91 coils, so 8 working and 10 in all, 70 mm solid."""
    spring = {"shear": MODULUS, "wire": "7 mm", "coil": "42 mm"}
    wanted = SHOP.gives("wanted_coils", ":1", load="1250 N", squeeze="30 mm", **spring)
    assert wanted == pytest.approx(81370 * 7 * 30 / (8 * 1250 * 6**3), rel=0.001)
    assert 7 < wanted <= 8
    assert SHOP.gives("solid_of_coils", "mm", wire="7 mm", coils="8 :1") == pytest.approx(70, rel=0.001)
    assert SHOP.gives("rate", "N/mm", coils=f"{wanted:.4f} :1", **spring) == pytest.approx(1250 / 30, rel=0.001)


def test_valve_spring():
    """Example 10.4: 150 N at 35 mm, 300 N at 30 mm: 30 N/mm; wire 4, coil 24 mm: 6.2785 coils, so 7 and 9 in all; free 48.82 mm."""
    assert SHOP.gives("wanted_rate", "N/mm", closed_load="150 N", open_load="300 N", squeeze="5 mm") == pytest.approx(30, rel=0.001)
    spring = {"shear": MODULUS, "wire": "4 mm", "coil": "24 mm"}
    assert SHOP.gives("wanted_coils", ":1", load="150 N", squeeze="5 mm", **spring) == pytest.approx(6.2785, rel=0.001)
    assert SHOP.gives("free_with_clash", "mm", coils="7 :1", open_load="300 N", **spring) == pytest.approx(48.82, rel=0.001)


def test_small_spring_in_inches():
    """Machine-design text, from memory, arithmetic recomputed: wire 0.037, coil 0.400 in, 10.5 coils, G 11.85 Mpsi: 4.13 lbf/in."""
    modulus = f"{11.85e6 * 6.894757293168:.0f} kPa"
    found = SHOP.gives("rate", "lbf/in", shear=modulus, wire="0.037 in", coil="0.400 in", coils="10.5 :1")
    assert found == pytest.approx(4.13, rel=0.005)


def tenths(low: int, high: int):
    """Lengths in ten-thousandths of an inch."""
    return st.integers(low, high)


def inch(tenth: int) -> str:
    return f"{tenth // 10000}.{tenth % 10000:04d} in"


@given(tenths(18000, 30000), tenths(15000, 17999), tenths(0, 7000), tenths(8000, 12000))
def test_loads_and_margins(free, installed, lift, solid):
    """No published example: load = k (free - length), coil-bind margin = installed - lift - solid."""
    read = {"free": inch(free), "installed": inch(installed), "lift": inch(lift), "solid": inch(solid)}
    spring = {"shear": MODULUS, "wire": "4.5 mm", "coil": "28 mm", "coils": "5.5 :1"}
    rate = 81370 * 4.5**4 / (8 * 28**3 * 5.5)
    assert SHOP.gives("seat_load", "N", **read, **spring) == pytest.approx(rate * (free - installed) * 0.00254, rel=1e-5, abs=1e-4)
    assert SHOP.gives("full_load", "N", **read, **spring) == pytest.approx(rate * (free - installed + lift) * 0.00254, rel=1e-5, abs=1e-4)
    assert SHOP.gives("coil_bind_margin", "in", **read) == pytest.approx((installed - lift - solid) / 10000, abs=1e-9)
