"""Lengths to order, turns of a screw, bobweight and cam timing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kernel.corrections.bobweight import bobweight
from kernel.corrections.length import lengths
from kernel.corrections.timing import timing
from kernel.corrections.turns import turns

THOU = 25400
DEGREE = 1_000_000
GRAM = 1_000_000
LASH = {"low": 16 * THOU, "high": 20 * THOU, "aim": 18 * THOU}


def test_lengths_to_order_in_steps_of_fifty_thou():
    found = lengths([7795 * THOU, 7812 * THOU, 7826 * THOU], 50 * THOU)
    assert found["order"] == [{"length": 7800 * THOU, "count": 2}, {"length": 7850 * THOU, "count": 1}]
    assert [each["off"] for each in found["each"]] == [5 * THOU, -12 * THOU, 24 * THOU]
    assert (found["one"], found["worst"]) == (7800 * THOU, 26 * THOU)


def test_halfway_goes_to_the_longer():
    assert lengths([25], 50)["order"] == [{"length": 50, "count": 1}]


def test_no_step_is_refused():
    with pytest.raises(ValueError, match="step above nothing"):
        lengths([1], 0)


@given(st.lists(st.integers(1000, 2000), min_size=1, max_size=16), st.integers(1, 60))
def test_no_length_is_nearer_and_no_one_length_serves_better(wanted, step):
    found = lengths(wanted, step)
    grid = range(0, 2100, step)
    assert [abs(each["off"]) for each in found["each"]] == [min(abs(length - want) for length in grid) for want in wanted]
    assert found["worst"] == min(max(abs(length - want) for want in wanted) for length in grid)
    assert sum(o["count"] for o in found["order"]) == len(wanted)


def test_lash_goes_down_by_pitch_times_ratio_a_turn():
    """7/16-20 screw, 0.050 in a turn, ratio 1.5: a turn is 0.075 in of lash."""
    found = turns(33 * THOU, LASH, 50 * THOU, 1_500_000)
    assert (found["degrees"], found["way"]) == (70, "in")
    assert found["figure"] == 33 * THOU - round(70 * 75 * THOU / 360)
    assert found["cures"]


def test_preload_is_raised_by_turning_in():
    found = turns(0, {"low": 20 * THOU, "high": 40 * THOU, "aim": 30 * THOU}, -50 * THOU)
    assert (found["degrees"], found["way"]) == (215, "in") and found["cures"]


def test_on_the_aim_it_stays():
    assert turns(18 * THOU, LASH, 50 * THOU)["way"] == ""


@given(st.integers(-100, 200), st.integers(10, 90), st.integers(500_000, 2_000_000))
def test_no_other_five_degrees_come_nearer(lash, pitch, ratio):
    found = turns(lash * THOU, LASH, pitch * THOU, ratio)
    a_step = pitch * THOU * ratio / 1_000_000 * 5 / 360
    assert abs(found["figure"] - 18 * THOU) <= a_step / 2 + 1


def test_a_screw_without_pitch_is_refused():
    with pytest.raises(ValueError, match="pitch"):
        turns(1, LASH, 0)


def test_bobweight_of_a_throw_with_two_rods():
    """Rotating + factor x reciprocating + oil, half for the usual 90 degree V8 (from memory, unverified)."""
    found = bobweight([2 * 450 * GRAM, 2 * 45 * GRAM], [2 * 480 * GRAM, 2 * 120 * GRAM, 2 * 190 * GRAM, 2 * 40 * GRAM], 4 * GRAM, 500_000)
    assert found == {"bobweight": (990 + 830 + 4) * GRAM, "rotating": 990 * GRAM, "reciprocating": 1660 * GRAM}


@given(st.lists(st.integers(0, 10**9), max_size=6), st.lists(st.integers(0, 10**9), max_size=6), st.integers(0, 10**7), st.integers(0, 10**6))
def test_bobweight_is_rounded_once(rotating, reciprocating, oil, factor):
    exact = (sum(rotating) + oil) * 10**6 + factor * sum(reciprocating)
    assert abs(bobweight(rotating, reciprocating, oil, factor)["bobweight"] * 10**6 - exact) * 2 <= 10**6


def test_timing_ten_forty_fifty_ten():
    """Opens 10 before top, closes 40 after bottom, opens 50 before bottom, closes 10 after top. Constructed from the formula."""
    found = timing(10 * DEGREE, 40 * DEGREE, 50 * DEGREE, 10 * DEGREE, 108 * DEGREE)
    assert found["intake"] == {"duration": 230 * DEGREE, "centreline": 105 * DEGREE}
    assert found["exhaust"] == {"duration": 240 * DEGREE, "centreline": 110 * DEGREE}
    assert found["lobe_separation"] == 107_500_000
    assert (found["overlap"], found["advance"]) == (20 * DEGREE, 3 * DEGREE)


def test_overlap_of_the_technical_manual():
    """US Army TM 9-8000: intake opens 28 degrees before top, exhaust closes 45 after: 73 of overlap (statement from memory)."""
    assert timing(28 * DEGREE, 0, 0, 45 * DEGREE)["overlap"] == 73 * DEGREE


@given(st.integers(-30, 60), st.integers(-10, 90), st.integers(-10, 90), st.integers(-30, 60), st.integers(-12, 12))
def test_a_cam_turned_early_keeps_everything_but_its_centrelines(io, ic, eo, ec, early):
    one = timing(io * DEGREE, ic * DEGREE, eo * DEGREE, ec * DEGREE, 108 * DEGREE)
    two = timing((io + early) * DEGREE, (ic - early) * DEGREE, (eo + early) * DEGREE, (ec - early) * DEGREE, 108 * DEGREE)
    for same in ("overlap", "lobe_separation"):
        assert one[same] == two[same]
    assert one["intake"]["duration"] == two["intake"]["duration"]
    assert two["advance"] - one["advance"] == early * DEGREE
