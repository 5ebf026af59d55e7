"""Unit factors, held against pint run the other way (decimals) and the tables of NIST SP 811."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from catalogue import units

# NIST SP 811 (2008), appendix B.8: factors given there, with the digits given there. Bold ones, exact by definition, are
# marked so. Grid units per SI unit: metre 1e9, newton metre 1e6, pascal 1e3, newton 1e6, newton a metre
# 1e3, metre a second 1e6, square metre 1e12, cubic metre 1e12.
NIST = [
    ("in", "0.0254", 10**9, True),
    ("thou", "0.0000254", 10**9, True),
    ("lbf.ft", "1.355818", 10**6, False),
    ("lbf.in", "0.1129848", 10**6, False),
    ("psi", "6894.757", 10**3, False),
    ("bar", "100000", 10**3, True),
    ("lbf", "4.448222", 10**6, False),
    ("ksi", "6894757", 10**3, False),
    ("lbf/in", "175.1268", 10**3, False),
    ("ft/min", "0.00508", 10**6, True),
    ("in2", "0.00064516", 10**12, True),
    ("in3", "0.00001638706", 10**12, False),
]


@pytest.mark.parametrize(("unit", "si", "grid", "exact"), NIST)
def test_nist_sp_811(unit, si, grid, exact):
    ours, theirs = units.factor(unit) / grid, Fraction(si)
    if exact:
        assert ours == theirs
    else:
        assert abs(ours / theirs - 1) < Fraction(5, 10**7)


def test_foot_pound_force_from_its_definitions():
    # pound 0.45359237 kg, standard gravity 9.80665 m/s2, foot 0.3048 m: each exact by definition
    exact = Fraction("0.45359237") * Fraction("9.80665") * Fraction("0.3048")
    assert units.factor("lbf.ft") == exact * 10**6


@pytest.fixture(scope="module")
def in_decimals():
    return units.new_registry(Decimal)


@pytest.mark.parametrize("unit", units.UNITS, ids=lambda u: u.id)
def test_every_factor_agrees_with_pint_in_decimals(unit, in_decimals):
    theirs = in_decimals.Quantity(Decimal(1), unit.expression).to(units.GRID[unit.dimension]).magnitude
    assert abs(units.factor(unit.id) / Fraction(theirs) - 1) < Fraction(1, 10**20)


def test_a_turn_a_minute_is_a_pure_number_a_minute():
    assert units.factor("rpm") == 1000
    assert units.grain("speed") == Fraction(1, 60_000), "a thousandth of a turn a minute, in turns a second: no 2 pi in it"


def test_no_two_dimensions_of_the_grid_are_made_of_the_same():
    assert [units.dimension_of(units.dims(name)) for name in units.GRID] == list(units.GRID)


def test_compound_dimensions_meet():
    assert units.dims("force") / units.dims("area") == units.dims("pressure")
    assert units.dims("stiffness") * units.dims("length") == units.dims("force")
    assert units.dims("expansion") * units.dims("temperature") == units.PURE != units.dims("angle")


def test_lengths_are_whole_nanometres():
    assert [units.factor(u) for u in ("in", "thou", "mm", "um")] == [25_400_000, 25_400, 1_000_000, 1_000]


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("0.0020 in", 50_800),
        ("2.0 thou", 50_800),
        ("0.0508 mm", 50_800),
        ("2.4505 in", 62_242_700),
        ("-0.5 thou", -12_700),
        ("40 lbf.ft", 54_232_718),
        ("65 lbf.ft", 88_128_167),
        ("1 N.m", 1_000_000),
    ],
)
def test_quantities_on_the_grid(text, value):
    assert units.read_quantity(text).value == value


def test_halves_go_away_from_zero():
    assert [units.on_grid(Fraction(n, 2)) for n in (1, -1, 3, -3, 4)] == [1, -1, 2, -2, 2]


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("2.4", "no unit"),
        ("2.4 furlong", "not known"),
        ("two in", "not a quantity"),
        ("1. in", "not a quantity"),
        (".5 in", "not a quantity"),
        ("1e3 in", "not a quantity"),
        ("", "not a quantity"),
        ("٣ in", "not a quantity"),
    ],
)
def test_bad_quantities_are_refused_in_a_sentence(text, word):
    with pytest.raises(ValueError, match=word):
        units.read_quantity(text)


def test_only_like_is_added_to_like():
    assert units.can_add("length", "length")
    assert not units.can_add("length", "volume")
    assert not units.can_add("angle", "ratio"), "plain numbers to pint, different things on an engine"


def test_the_phone_is_offered_what_a_procedure_needs():
    table = units.offered({"length", "torque"})
    assert sorted(table) == ["N.m", "in", "lbf.ft", "mm", "thou"]
    assert table["in"] == {"dimension": "length", "num": 25_400_000, "den": 1, "decimals": 4, "label": "in"}
    assert [table[u]["decimals"] for u in ("thou", "mm", "lbf.ft", "N.m")] == [1, 3, 0, 0]
    assert [table[u]["label"] for u in ("lbf.ft", "N.m")] == ["lbf·ft", "N·m"]
