"""Formulas that could fail at the bench, for readings that are not absurd, are refused; and the reach of a formula is never too narrow."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from catalogue.bands import span
from catalogue.compile import compile_text
from catalogue.dimensions import Leaf
from catalogue.errors import ProcedureError
from catalogue.formula import parse
from hypothesis import given
from hypothesis import strategies as st

from .wide import TABLES, WIDE

MANY = WIDE.replace("part: bucket, holds: one", "part: bucket, holds: many")

REFUSED = [
    ("bore ** 2 / gap", "'gap' is divided by, and may be zero: by the bands it lies between 0 and 0.2 in."),
    ("bore ** 2 / deck", "between -0.02 and 0.05 in"),
    ("bore ** 2 / (bore - skirt)", "'bore - skirt' is divided by, and may be zero: by the bands it lies between -0.3 and 0.3 in."),
    ("bore ** 2 / spread(bore)", "may be zero"),
    ("bore ** 2 / abs(deck)", "may be zero"),
    ("bore / (skirt * deck) * bore", "'skirt * deck' is divided by, and may be zero: by the bands it lies between -54.1934 and 135.484 mm2."),
    ("bore / 0", "'0' is divided by"),
    ("bore / cos(tilt + '60 deg')", "may be zero"),
    ("bore * sqrt(deck / bore)", "'deck / bore' may be negative"),
    ("sqrt(bore ** 2 - skirt ** 2)", "'bore ** 2 - skirt ** 2' may be negative"),
    ("bore / (left / '1 cm3' - 31)", "may be zero"),
]


@pytest.mark.parametrize(("formula", "says"), REFUSED, ids=[r[0] for r in REFUSED])
def test_refused_with_its_line(wide_refused, formula, says):
    line, problems = wide_refused("formula: gap}", f'formula: "{formula}"}}')
    found = [p for p in problems if says in p.says]
    assert [p.line for p in found] == [line], [str(p) for p in problems]


@pytest.mark.parametrize(
    "formula",
    [
        "bore ** 2 / skirt",
        "bore ** 2 / (bore + deck)",
        "bore ** 2 / max(deck, '0.001 in')",
        "bore / cos(tilt)",
        "bore / (1 + deck ** 2 / bore ** 2)",
        "bore / mean(bore) * skirt",
        "sqrt(bore ** 2 - stroke ** 2 / 4)",
        "sqrt(abs(deck) * bore)",
        "bore * swept / left",
        "gap / oil.hths * '1 mPa.s'",
    ],
)
def test_what_cannot_fail_is_good(wide_with, formula):
    assert wide_with("formula: gap}", f'formula: "{formula}"}}')


FORMULAS = [
    "a + b * c", "a - b - c", "a * b * c", "a ** 2 - b ** 3", "abs(a) - abs(b)", "sqrt(a ** 2 + 1)", "b / (c ** 2 + 1)",
    "sin(t) + cos(t)", "sin(2 * t) * a", "mean(a, b, c)", "spread(a, b, c)", "min(a, b) + max(b, c)", "-a ** 4", "spread(a, c) / (1 + abs(b))",
]  # fmt: skip
ENDS = st.fractions(-400, 400, max_denominator=50)
BANDS = st.lists(st.tuples(ENDS, ENDS).map(lambda e: (min(e), max(e))), min_size=4, max_size=4)


def value(formula: str, at: dict) -> float:
    wave = {"sin": lambda d: math.sin(math.radians(d)), "cos": lambda d: math.cos(math.radians(d))}
    several = {"mean": lambda *v: sum(v) / len(v), "spread": lambda *v: max(v) - min(v), "min": min, "max": max}
    return eval(formula, {"abs": abs, "sqrt": math.sqrt, **wave, **several}, at)  # noqa: S307 (a list of our own, above)


@given(st.sampled_from(FORMULAS), BANDS, st.lists(st.fractions(0, 1, max_denominator=30), min_size=4, max_size=4))
def test_every_figure_within_the_bands_is_within_the_reach(formula, bands, shares):
    known = {("point", name): Leaf("angle" if name == "t" else "ratio", "", *band) for name, band in zip("abct", bands, strict=True)}
    low, high = span(parse(formula, {"point": dict.fromkeys("abct"), "fit": {}, "choice": {}, "size": {}}), known)
    at = {name: float(lo + (hi - lo) * share) for name, (lo, hi), share in zip("abct", bands, shares, strict=True)}
    figure = value(formula, at)
    slack = abs(figure) * 1e-9 + 1e-9
    assert float(low) - slack <= figure <= float(high) + slack


def test_crests_between_the_ends_count():
    def reach(low: int, high: int, formula: str):
        known = {("point", "t"): Leaf("angle", "", Fraction(low), Fraction(high))}
        return [round(float(end), 6) for end in span(parse(formula, {"point": {"t": None}, "fit": {}, "choice": {}, "size": {}}), known)]

    assert reach(30, 150, "sin(t)") == [0.5, 1.0]
    assert reach(-30, 60, "cos(t)") == [0.5, 1.0]
    assert reach(90, 300, "cos(t)") == [-1.0, 0.5]
    assert reach(-10, 800, "sin(t)") == [-1.0, 1.0]


def test_a_slot_that_holds_many_may_hold_none(wide_with):
    one = wide_with("formula: gap}", 'formula: "gap * lash / size(bucket)"}')
    assert one["fits"]["tried"]["sizes"] == ["bucket"]
    with pytest.raises(ProcedureError, match=r"'size\(bucket\)' is divided by, and may be zero"):
        compile_text(MANY.replace("formula: gap}", 'formula: "gap * lash / size(bucket)"}'), "wide.yaml", TABLES)
