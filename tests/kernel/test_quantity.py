"""Numbers on the grid: exact both ways, and never a float."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kernel.canon import canon
from kernel.quantity import read, write
from kernel.sentence import BadNumber
from kernel.sorting import merge_sort
from kernel.verdict import judge

UNITS = json.loads((Path(__file__).parents[1] / "cases" / "procedures" / "pushrod-v8.json").read_text())["units"]
# Finest decimals at which a step of the unit is still at least one base unit, so that nothing can be lost.
FINEST = {"in": 7, "thou": 4, "mm": 6, "lbf.ft": 6, "N.m": 6}


@given(unit=st.sampled_from(sorted(FINEST)), data=st.data())
def test_what_is_typed_comes_back_as_typed(unit, data):
    decimals = data.draw(st.integers(0, FINEST[unit]))
    count = data.draw(st.integers(0, 10**8))
    text = f"{count // 10**decimals}.{count % 10**decimals:0{decimals}d}" if decimals else str(count)
    assert write(read(text, UNITS[unit])["value"], UNITS[unit], decimals) == text


@given(tenths=st.integers(0, 10**6))
def test_inch_and_metric_name_the_same_grid_points(tenths):
    """25.4 mm to the inch is exact (NIST SP 811, appendix B), so a ten-thousandth is 0.00254 mm to the last digit."""
    inch = f"{tenths // 10_000}.{tenths % 10_000:04d}"
    mm = f"{tenths * 254 // 100_000}.{tenths * 254 % 100_000:05d}"
    assert read(inch, UNITS["in"])["value"] == read(mm, UNITS["mm"])["value"]


def test_torque_factor_is_the_published_one():
    """1 lbf.ft = 1.355 818 N.m (NIST SP 811, appendix B.8)."""
    assert write(read("1", UNITS["lbf.ft"])["value"], UNITS["N.m"], 6) == "1.355818"


@pytest.mark.parametrize("text", ["", ".", "2.", ".5", "2..4", "2,4", "--2", "1e3", "٣", " 2", "2 ", "NaN", "1" * 16, None, 2.4])
def test_what_is_no_number_is_refused_with_a_sentence(text):
    with pytest.raises(BadNumber, match="[.]$"):
        read(text, UNITS["in"])


@given(st.integers(), st.integers(), st.integers())
def test_a_verdict_is_in_exactly_between_the_limits(value, a, b):
    low, high = min(a, b), max(a, b)
    verdict = judge(value, low, high)
    assert (verdict["verdict"] == "in") == (low <= value <= high)
    assert verdict["by"] >= 0


@given(st.lists(st.tuples(st.integers(0, 5), st.integers())))
def test_the_one_sort_is_stable(items):
    assert merge_sort(items, lambda pair: pair[0]) == sorted(items, key=lambda pair: pair[0])


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.text(st.characters(exclude_categories=["Cs"])),
    lambda inner: st.lists(inner) | st.dictionaries(st.text(st.characters(exclude_categories=["Cs"])), inner),
    max_leaves=20,
)


@given(JSON)
def test_canonical_json_is_json_and_the_same_for_equal_data(value):
    text = canon(value)
    assert json.loads(text) == value
    assert canon(json.loads(text)) == text
