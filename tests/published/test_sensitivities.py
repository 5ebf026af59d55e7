"""What a reading weighs in a figure, as the kernel says, against what the figure does when the reading really moves."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kernel.fits import figure

from .shop import Shop

SHOP = Shop("""\
points:
  bore: {title: Bore, band: [3 in, 5 in]}
  stroke: {title: Stroke, band: [3 in, 5 in]}
  rod: {title: Rod length, band: [5 in, 9 in]}
  crank: {title: Crank angle, band: [0 deg, 720 deg]}
  left: {title: Clearance volume, band: [30 cm3, 120 cm3]}
  wire: {title: Wire, band: [3 mm, 6 mm]}
  coil: {title: Coil, band: [20 mm, 40 mm]}
  coils: {title: Working coils, band: ["3 :1", "10 :1"]}
  journal: {title: Journal, band: [2 in, 3 in]}
  shell_bore: {title: Shell bore, band: [2 in, 3 in]}
fits:
  clearance: {title: Clearance, formula: shell_bore - journal}
  displacement: {title: Displacement, formula: pi / 4 * bore ** 2 * stroke}
  ratio: {title: Compression ratio, formula: (displacement + left) / left}
  down: {title: Piston below top, formula: "stroke / 2 * (1 - cos(crank)) + rod - sqrt(rod ** 2 - (stroke / 2 * sin(crank)) ** 2)"}
  rate: {title: Spring rate, formula: "'81370 MPa' * wire ** 4 / (8 * coil ** 3 * coils)"}
  least: {title: The lesser, formula: "min(bore, stroke)"}
  apart: {title: Apart, formula: "spread(bore, stroke)"}
""")
MILLIMETRE, DEGREE, CC = 1_000_000, 1_000_000, 1_000_000


def agree(fit: str, points: dict[str, int], reach: dict[str, int]) -> None:
    """Central differences are right to the square of the step, and to half a grid unit of the fit over the step."""
    for name, (said, seen) in SHOP.sensitivities(fit, points, reach).items():
        assert said == pytest.approx(seen, rel=2e-4, abs=1 / reach[name] + 2e-9), (fit, name)


LENGTHS = st.integers(80 * MILLIMETRE, 120 * MILLIMETRE)


@given(LENGTHS, LENGTHS)
def test_a_difference(a, b):
    said = SHOP.sensitivities("clearance", {"shell_bore": a, "journal": b}, {"shell_bore": 1000, "journal": 1000})
    assert said == {"shell_bore": (1, 1), "journal": (-1, -1)}


@given(LENGTHS, LENGTHS, st.integers(30 * CC, 120 * CC))
def test_volumes_and_their_ratio(bore, stroke, left):
    agree("displacement", {"bore": bore, "stroke": stroke}, {"bore": 100_000, "stroke": 100_000})
    points = {"bore": bore, "stroke": stroke, "left": left}
    agree("ratio", points, {"bore": 500_000, "stroke": 500_000, "left": 300_000})


@given(LENGTHS, st.integers(140 * MILLIMETRE, 200 * MILLIMETRE), st.integers(0, 720 * DEGREE))
def test_the_piston(stroke, rod, crank):
    agree("down", {"stroke": stroke, "rod": rod, "crank": crank}, {"stroke": 100_000, "rod": 100_000, "crank": 100_000})


@given(st.integers(3 * MILLIMETRE, 6 * MILLIMETRE), st.integers(20 * MILLIMETRE, 40 * MILLIMETRE), st.integers(3_000_000, 10_000_000))
def test_a_spring(wire, coil, coils):
    agree("rate", {"wire": wire, "coil": coil, "coils": coils}, {"wire": 10_000, "coil": 50_000, "coils": 10_000})


@given(LENGTHS, LENGTHS)
def test_the_lesser_and_the_spread_weigh_the_reading_that_makes_them(bore, stroke):
    if abs(bore - stroke) > 2000:
        agree("least", {"bore": bore, "stroke": stroke}, {"bore": 1000, "stroke": 1000})
        agree("apart", {"bore": bore, "stroke": stroke}, {"bore": 1000, "stroke": 1000})


def test_how_coarse_a_figure_is():
    """Every reading off by half its last digit, all against us: 4.030 and 3.750 in to a thou make the displacement coarse by
    half a thou times the area, and half a thou times pi/2 x bore x stroke."""
    build = SHOP.build(bore="4.030 in", stroke="3.750 in")
    cubic_inch = 16_387_064
    area, wall = 3.14159265 / 4 * 4.030**2, 3.14159265 / 2 * 4.030 * 3.750
    assert figure(build, "displacement", "")["step"] / cubic_inch == pytest.approx(0.0005 * (area + wall), rel=1e-4)
