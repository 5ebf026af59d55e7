"""Displacement, where the piston is, how fast it goes, power, balance, leak-down."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from .shop import Shop

SHOP = Shop("""\
groups:
  cylinders: {title: cylinder, stations: [{id: "1", x: 10, y: 50}, {id: "2", x: 90, y: 50}]}
points:
  bore: {title: Bore, band: [1 in, 10 in]}
  stroke: {title: Stroke, band: [1 in, 10 in]}
  rod: {title: Rod length, band: [5.2 in, 9 in]}
  crank: {title: Crank angle past top, band: [0 deg, 720 deg]}
  cylinders_in_all: {title: Cylinders, band: ["1 :1", "28 :1"]}
  speed: {title: Crank speed, band: [100 rpm, 20000 rpm]}
  power_strokes: {title: Power strokes a cylinder and minute, band: [100 rpm, 20000 rpm]}
  mean_pressure: {title: Mean effective pressure, band: [1 psi, 500 psi]}
  brake_torque: {title: Torque at the brake, band: [0 lbf.ft, 2000 lbf.ft]}
  quality: {title: Balance quality, band: [0.001 m/s, 1 m/s]}
  rotor: {title: Mass of the rotor, band: [1 g, 100000 g]}
  at_radius: {title: Radius of the correction, band: [10 mm, 500 mm]}
  fed: {title: Supply pressure, band: [10 psi, 200 psi]}
  held: {title: Pressure the cylinder holds, band: [0 psi, 200 psi]}
  pin_offset: {title: Crank pin offset, band: [0.5 in, 2.59 in]}
  small_end: {title: Reciprocating mass, group: cylinders, band: [1 g, 5000 g]}
  big_end: {title: Rotating mass, group: cylinders, band: [1 g, 5000 g]}
  oil_in_it: {title: Oil in the journal, band: [0 g, 50 g]}
  share: {title: Share of the reciprocating mass, band: [0 %, 100 %]}
fits:
  displacement: {title: Displacement, formula: cylinders_in_all * pi / 4 * bore ** 2 * stroke}
  bore_to_stroke: {title: Bore to stroke, formula: bore / stroke}
  piston_down:
    title: Piston below top
    formula: "pin_offset * (1 - cos(crank)) + rod - sqrt(rod ** 2 - pin_offset ** 2 * sin(crank) ** 2)"
  swept_so_far: {title: Volume opened, formula: pi / 4 * bore ** 2 * piston_down}
  mean_piston_speed: {title: Mean piston speed, formula: 2 * stroke * speed}
  to_mean_speed:
    title: Piston speed to its mean
    formula: "pi / 2 * sin(crank) * (1 + pin_offset * cos(crank) / sqrt(rod ** 2 - pin_offset ** 2 * sin(crank) ** 2))"
  indicated_power:
    title: Indicated horsepower
    formula: "mean_pressure * stroke * pi / 4 * bore ** 2 * power_strokes * cylinders_in_all / ('33000 lbf.ft' * '1 rpm')"
  brake_power: {title: Horsepower at the brake, formula: "2 * pi * brake_torque * speed / ('33000 lbf.ft' * '1 rpm')"}
  allowed_out_of_balance: {title: Mass allowed at the radius, formula: quality * rotor / (2 * pi * speed) / at_radius}
  leak_down: {title: Leak-down, formula: (fed - held) / fed}
  bobweight: {title: Bobweight, group: cylinders, formula: big_end + share * small_end + oil_in_it}
""")


def inches(value: float) -> str:
    return f"{value:.6f} in"


def piston(crank: str, stroke: float = 3.48, rod: float = 5.7, **more: str) -> float:
    return SHOP.gives("piston_down", "in", crank=crank, pin_offset=inches(stroke / 2), rod=inches(rod), **more)


def test_displacement():
    """FAA-H-8083-32, from memory, arithmetic recomputed: 5.5 x 5.5 in in 14 cylinders, 1829.4 in3."""
    found = SHOP.gives("displacement", "in3", bore="5.5 in", stroke="5.5 in", cylinders_in_all="14 :1")
    assert found == pytest.approx(1829.4, abs=0.1)


def test_displacement_of_a_bored_v8():
    """Common practice: 4.030 x 3.750 in in eight cylinders is called 383 in3."""
    found = SHOP.gives("displacement", "in3", bore="4.030 in", stroke="3.750 in", cylinders_in_all="8 :1")
    assert found == pytest.approx(8 * math.pi / 4 * 4.030**2 * 3.750, abs=0.001)
    assert round(found) == 383


def test_bore_and_stroke_of_a_cylinder():
    """Combustion-engine text (its examples are public as a Scilab companion, no. 443), example 1.1, read and recomputed:
    245 cc and bore to stroke 1.1 give 7.001 x 6.364 cm."""
    size = {"bore": "70.01 mm", "stroke": "63.64 mm"}
    assert SHOP.gives("displacement", "cm3", cylinders_in_all="1 :1", **size) == pytest.approx(245, rel=0.001)
    assert SHOP.gives("bore_to_stroke", ":1", **size) == pytest.approx(1.1, rel=0.001)


def test_indicated_power():
    """FAA-H-8083-32, from memory, arithmetic recomputed: 165 psi, 0.5 ft, bore 5.5 in, 1500 power strokes, 12 cylinders: 1069 hp."""
    read = {"mean_pressure": "165 psi", "stroke": "6 in", "bore": "5.5 in", "power_strokes": "1500 rpm", "cylinders_in_all": "12 :1"}
    assert SHOP.gives("indicated_power", ":1", **read) == pytest.approx(1069, abs=1)


def test_power_at_the_brake():
    """The constant 5252.1131 (NIST SP 811 units, recomputed): at that many rpm the torque in lbf.ft is the power in hp."""
    assert SHOP.gives("brake_power", ":1", brake_torque="400 lbf.ft", speed="5252.1131 rpm") == pytest.approx(400, abs=0.001)
    assert SHOP.gives("brake_power", ":1", brake_torque="400 lbf.ft", speed="6500 rpm") == pytest.approx(400 * 6500 / 5252.1131, abs=0.001)


# Constructed from the slider-crank formula: stroke 3.48, rod 5.7 in.
@pytest.mark.parametrize(("crank", "down"), [(10, 0.03445), (20, 0.13609), (70, 1.38443), (90, 2.01207), (110, 2.57466)])
def test_where_the_piston_is(crank, down):
    assert piston(f"{crank} deg") == pytest.approx(down, abs=1e-5)


@given(st.integers(0, 7200), st.integers(100, 500), st.integers(520, 900))
def test_where_the_piston_is_everywhere(crank, stroke, rod):
    """No published example: the formula in floats, and what must hold at top, bottom and either side of top."""
    stroke, rod = stroke / 100, rod / 100
    found = piston(f"{crank / 10:.1f} deg", stroke, rod)
    turn, half = math.radians(crank / 10), stroke / 2
    assert found == pytest.approx(half * (1 - math.cos(turn)) + rod - math.sqrt(rod**2 - (half * math.sin(turn)) ** 2), abs=1e-6)
    assert found == pytest.approx(piston(f"{720 - crank / 10:.1f} deg", stroke, rod), abs=1e-7)
    assert -1e-7 <= found <= stroke + 1e-7
    assert piston("180 deg", stroke, rod) == pytest.approx(stroke, abs=1e-7)


def test_a_square_v6_at_20_degrees():
    """Combustion-engine text, from memory, arithmetic recomputed: 3 litres, square, rod 16.6 cm, ratio 9.5, 3600 rpm:
    bore and stroke 8.60 cm, mean speed 10.32 m/s, clearance 59 cm3; at 20 degrees 0.6686 of the mean speed, 0.3247 cm down, 77.7 cm3."""
    size = {"bore": "86 mm", "stroke": "86 mm"}
    one = SHOP.gives("displacement", "cm3", cylinders_in_all="1 :1", **size)
    assert 6 * one == pytest.approx(3000, rel=0.005)
    assert SHOP.gives("mean_piston_speed", "m/s", stroke="86 mm", speed="3600 rpm") == pytest.approx(10.32, rel=0.005)
    at = {"pin_offset": "43 mm", "rod": "166 mm", "crank": "20 deg"}
    assert SHOP.gives("to_mean_speed", ":1", **at) == pytest.approx(0.6686, rel=0.005)
    assert SHOP.gives("piston_down", "mm", **at) == pytest.approx(3.247, rel=0.005)
    assert one / 8.5 + SHOP.gives("swept_so_far", "cm3", bore="86 mm", **at) == pytest.approx(77.7, rel=0.005)


def test_balance():
    """ISO 21940-11, G = e w read: G 6.3, 20 kg, 6000 rpm leave 200.5 g.mm: 2.005 g at a radius of 100 mm. 0.1 %."""
    read = {"quality": "0.0063 m/s", "rotor": "20000 g", "speed": "6000 rpm", "at_radius": "100 mm"}
    assert SHOP.gives("allowed_out_of_balance", "g", **read) == pytest.approx(2.005, rel=0.001)


def test_leak_down():
    """FAA AC 43.13-1B, 8-14, read: 80 psi supplied and 60 held is 25 %."""
    assert SHOP.gives("leak_down", "%", fed="80 psi", held="60 psi") == 25


@given(st.integers(1, 5000), st.integers(1, 5000), st.integers(0, 50), st.integers(0, 100))
def test_bobweight(big, small, oil, share):
    """No published example: rotating + share x reciprocating + oil; half for the usual V8 of 90 degrees (from memory, unverified)."""
    read = {"big_end": [f"{big} g", "1 g"], "small_end": [f"{small} g", "1 g"], "oil_in_it": f"{oil} g"}
    assert SHOP.gives("bobweight", "g", at="1", share=f"{share} %", **read) == pytest.approx(big + share / 100 * small + oil, abs=1e-6)
