"""What a formula gives, and what each reading weighs in it."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kernel.angles import cosine, sine
from kernel.formula import NO_FIGURE, NOT_READ, ONE, nothing, reading, work_out
from kernel.rational import whole_root

PI = ["ratio", 314159265358979323846264338328, 10**29]


def over(values: dict[str, int], half: int = 0):
    """A source of readings by name; a list of them where all stations are asked for."""

    def source(node, station):
        name = node[1]
        if station is None:
            return [reading(key, values[key], half) for key in values if key.startswith(name + "@")]
        return reading(name, values[name], half) if name in values else nothing(NOT_READ)

    return source


def figure(tree, half: int = 0, **values: int):
    return work_out(tree, "", over(values, half))


BORE, JOURNAL = ["point", "bore"], ["point", "journal"]


def test_a_difference_is_exact_and_moves_one_for_one():
    found = figure(["-", BORE, JOURNAL], half=127, bore=62_242_700, journal=62_191_900)
    assert (found["value"], found["sens"]) == (50_800, {"bore": ONE, "journal": -ONE})
    assert found["step"] == 254, "both readings off by half their last digit"


def test_a_disc_of_gasket_in_nanolitres():
    # 104.14 mm across and 1.016 mm thick: pi/4 x 104.14^2 x 1.016 = 8654.1 mm^3, worked out by hand
    disc = ["*", ["ratio", 1, 10**15], ["*", ["/", ["*", PI, ["**", BORE, 2]], ["ratio", 4, 1]], ["point", "thick"]]]
    found = figure(disc, bore=104_140_000, thick=1_016_000)
    assert found["value"] == pytest.approx(math.pi / 4 * 104.14**2 * 1.016 * 1000, abs=1)
    assert found["sens"]["thick"] / ONE == pytest.approx(math.pi / 4 * 104_140_000**2 / 1e15, rel=1e-6)
    assert found["sens"]["bore"] / ONE == pytest.approx(2 * found["value"] / 104_140_000, rel=1e-6)


def test_nothing_is_worked_out_from_a_reading_that_is_not_there():
    assert figure(["-", BORE, JOURNAL], bore=5)["state"] == NOT_READ


@pytest.mark.parametrize("tree", [["/", BORE, ["-", JOURNAL, JOURNAL]], ["sqrt", ["-", ["number", 0], BORE], 1, 1]])
def test_readings_that_cannot_be_right_together_give_no_figure(tree):
    assert figure(tree, bore=5, journal=7)["state"] == NO_FIGURE


def test_over_stations_and_over_arguments():
    source = over({"wall@1": 10, "wall@2": 14, "wall@3": 13}, 1)
    wall = ["point", "wall"]
    assert work_out(["spread", wall], "", source)["sens"] == {"wall@1": -ONE, "wall@2": ONE}
    assert work_out(["spread", wall], "", source)["step"] == 2
    assert [work_out([kind, wall], "", source)["value"] for kind in ("mean", "min", "max", "sum", "spread")] == [12, 10, 14, 37, 4]
    three = [["number", 5], ["number", 9], ["number", 8]]
    assert [work_out([kind] + three, "", source)["value"] for kind in ("mean", "min", "max", "sum", "spread")] == [7, 5, 9, 22, 4]


def test_a_reading_used_twice_weighs_what_it_weighs_in_all():
    found = figure(["-", ["+", BORE, JOURNAL], BORE], half=5, bore=9, journal=4)
    assert (found["value"], found["sens"]["bore"], found["step"]) == (4, 0, 5)


@given(st.integers(-720_000_000, 720_000_000))
def test_sine_and_cosine_against_the_standard_library(micro):
    for own, theirs in ((sine, math.sin), (cosine, math.cos)):
        num, den = own((micro, 1))
        assert abs(num / den - theirs(math.radians(micro / 1e6))) < 5e-15


@given(st.integers(0, 10**40))
def test_the_root_of_a_whole_number(n):
    assert whole_root(n) == math.isqrt(n)


leaves = st.sampled_from([["point", "a"], ["point", "b"], ["point", "c"], ["ratio", 3, 7], ["number", 11]])
trees = st.recursive(
    leaves,
    lambda inner: st.one_of(
        st.tuples(st.sampled_from(["+", "-", "*", "/", "mean", "max", "spread"]), inner, inner).map(list),
        st.tuples(st.just("**"), inner, st.integers(2, 3)).map(list),
        st.tuples(st.just("abs"), inner).map(list),
    ),
    max_leaves=8,
)
amounts = st.integers(-(10**6), 10**6)


def exact(tree, values):
    """The same formula in the standard library's fractions."""
    head = tree[0]
    if head == "point":
        return Fraction(values[tree[1]])
    if head in ("number", "ratio"):
        return Fraction(*tree[1:])
    if head == "**":
        return exact(tree[1], values) ** tree[2]
    if head == "abs":
        return abs(exact(tree[1], values))
    a, b = exact(tree[1], values), exact(tree[2], values)
    return {
        "+": lambda: a + b, "-": lambda: a - b, "*": lambda: a * b, "/": lambda: a / b,
        "mean": lambda: (a + b) / 2, "max": lambda: max(a, b), "spread": lambda: max(a, b) - min(a, b),
    }[head]()  # fmt: skip


@given(trees, amounts, amounts, amounts)
def test_any_formula_against_the_standard_librarys_fractions(tree, a, b, c):
    values = {"a": a, "b": b, "c": c}
    found = figure(tree, **values)
    try:
        want = exact(tree, values)
    except ZeroDivisionError:
        assert found["state"] == NO_FIGURE
        return
    half = Fraction(1, 2)
    nearest = math.floor(want + half) if want >= 0 else math.ceil(want - half)
    assert found["value"] == nearest


@given(trees, amounts, amounts, amounts)
def test_sensitivity_is_the_slope(tree, a, b, c):
    """Against a central difference, in fractions, where the formula has no corner within the step."""
    values = {"a": a, "b": b, "c": c}
    h = Fraction(1, 10**9)
    found = figure(tree, **values)
    if found["state"] != "read" or "max" in str(tree) or "spread" in str(tree) or "abs" in str(tree):
        return
    for name in found["sens"]:
        try:
            up, down = (exact(tree, {**values, name: values[name] + s * h}) for s in (1, -1))
        except ZeroDivisionError:
            return
        slope = (up - down) / (2 * h)
        assert abs(Fraction(found["sens"][name], ONE) - slope) <= Fraction(1, 10**8) + abs(slope) / 10**4
