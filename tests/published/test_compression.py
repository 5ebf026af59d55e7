"""Compression: gasket volume, clearance volume, static and dynamic ratio, squish."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from .shop import Shop

SHOP = Shop("""\
points:
  bore: {title: Bore, band: [2 in, 6 in]}
  stroke: {title: Stroke, band: [2 in, 6 in]}
  rod: {title: Rod length, band: [4 in, 9 in]}
  closing: {title: "Intake valve closes, after bottom", band: [0 deg, 90 deg]}
  chamber: {title: Chamber volume, band: [10 cm3, 200 cm3]}
  dish: {title: "Dish, valve pockets less dome", band: [-30 cm3, 60 cm3]}
  gasket_bore: {title: Gasket bore, band: [2 in, 7 in]}
  gasket: {title: Gasket thickness compressed, band: [0.01 in, 0.2 in]}
  deck: {title: Piston below the deck, band: [0.001 in, 0.1 in]}
  swept: {title: Volume swept, band: [50 cm3, 1000 cm3]}
  left: {title: Volume left at top, band: [5 cm3, 200 cm3]}
  static: {title: Static ratio, band: ["5 :1", "20 :1"]}
fits:
  ratio_of_volumes: {title: Compression ratio, formula: (swept + left) / left}
  gasket_volume: {title: Gasket volume, formula: pi / 4 * gasket_bore ** 2 * gasket}
  deck_volume: {title: Deck volume, formula: pi / 4 * bore ** 2 * deck}
  left_at_top: {title: Clearance volume, formula: "max(chamber + dish + gasket_volume + deck_volume, '1 cm3')"}
  displacement: {title: Displacement of one, formula: pi / 4 * bore ** 2 * stroke}
  compression_ratio: {title: Compression ratio, formula: (displacement + left_at_top) / left_at_top}
  left_for_ratio: {title: Clearance volume of a ratio, formula: displacement / (static - 1)}
  swept_height:
    title: Stroke left when the intake closes
    formula: "stroke / 2 * (1 + cos(closing)) + rod - sqrt(rod ** 2 - (stroke / 2 * sin(closing)) ** 2)"
  dynamic_ratio: {title: Dynamic ratio, formula: 1 + (static - 1) * swept_height / stroke}
  squish: {title: Squish, formula: deck + gasket}
""")


def test_ratio_of_volumes():
    """Combustion-engine text (its examples are public as a Scilab companion, no. 443), example 1.1, read and recomputed:
    245 cc swept and 27.22 left make 10.00."""
    assert SHOP.gives("ratio_of_volumes", ":1", swept="245 cm3", left="27.22 cm3") == pytest.approx(10.00, abs=0.001)


def test_clearance_volume_of_a_ratio():
    """Combustion-engine text, from memory, arithmetic recomputed: 8.60 cm square at 9.5 leaves 59 cm3. 0.5 %."""
    assert SHOP.gives("left_for_ratio", "cm3", bore="86 mm", stroke="86 mm", static="9.5 :1") == pytest.approx(59, rel=0.005)


@pytest.mark.parametrize(("closing", "ratio"), [(66, 8.299), (0, 10.5)])
def test_dynamic_ratio(closing, ratio):
    """Constructed: 10.5 with 3.48 in of stroke, 5.7 in rods, closing 66 degrees after bottom: 8.299; at bottom it is the static one."""
    found = SHOP.gives("dynamic_ratio", ":1", static="10.5 :1", stroke="3.48 in", rod="5.7 in", closing=f"{closing} deg")
    assert found == pytest.approx(ratio, abs=0.001)


def tenths(low: int, high: int):
    return st.integers(low, high)


def inch(tenth: int) -> str:
    return f"{tenth // 10000}.{tenth % 10000:04d} in"


@given(tenths(38000, 45000), tenths(30000, 45000), tenths(40000, 46000), tenths(150, 600), tenths(10, 400), st.integers(400, 900), st.integers(-100, 200))
def test_a_whole_cylinder(bore, stroke, gasket_bore, gasket, deck, chamber, dish):
    """No published example: every volume counted once, the gasket's from the gasket's own bore; the ratio falls as the gasket grows."""
    read = {"bore": inch(bore), "stroke": inch(stroke), "gasket_bore": inch(gasket_bore), "gasket": inch(gasket), "deck": inch(deck)}
    read |= {"chamber": f"{chamber / 10:.1f} cm3", "dish": f"{dish / 10:.1f} cm3"}
    disc = math.pi / 4 * 16.387064 / 1e12
    left = chamber / 10 + dish / 10 + disc * (gasket_bore**2 * gasket + bore**2 * deck)
    swept = disc * bore**2 * stroke
    assert SHOP.gives("left_at_top", "cm3", **read) == pytest.approx(left, abs=1e-5)
    found = SHOP.gives("compression_ratio", ":1", **read)
    assert found == pytest.approx((swept + left) / left, abs=2e-6)
    assert SHOP.gives("compression_ratio", ":1", **(read | {"gasket": inch(gasket + 10)})) < found


@given(tenths(10, 900), tenths(100, 1900))
def test_squish_is_deck_and_gasket(deck, gasket):
    assert SHOP.gives("squish", "in", deck=inch(deck), gasket=inch(gasket)) == pytest.approx((deck + gasket) / 10000, abs=1e-9)
