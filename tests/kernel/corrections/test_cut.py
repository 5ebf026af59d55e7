"""Orders to the machine shop. Lengths in nanometres; TENTH is a tenth of a thousandth of an inch."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kernel.corrections.cut import cut
from kernel.corrections.one_size import BILLION

TENTH = 2540


def clearance(value, sens=BILLION):
    return {"value": value * TENTH, "sens": sens, "low": 35 * TENTH, "high": 45 * TENTH, "aim": 40 * TENTH}


def test_a_tight_bore_is_honed_to_the_aim():
    assert cut(40300 * TENTH, [clearance(31)], "up") == {"to": 40309 * TENTH, "by": 9 * TENTH, "cures": True, "why": ""}


def test_a_loose_bore_cannot_be_honed_tighter():
    assert cut(40300 * TENTH, [clearance(48)], "up") == {"to": None, "by": None, "cures": False, "why": "wrong_way"}


def test_a_deck_comes_down_where_the_piston_sits_too_low():
    """Deck clearance = deck height - piston height: cutting the deck takes it off the clearance one for one."""
    found = cut(9000 * TENTH, [clearance(60), clearance(58)], "down")
    assert found["cures"] and found["by"] == -19 * TENTH


def test_one_cut_for_all_stays_in_at_every_station():
    found = cut(9000 * TENTH, [clearance(50), clearance(41)], "down")
    assert found["cures"] and found["by"] == -5 * TENTH - TENTH // 2


def test_heights_too_far_apart_for_one_cut():
    assert cut(9000 * TENTH, [clearance(60), clearance(45)], "down")["why"] == "apart"


def test_nothing_out_is_not_cut():
    assert cut(9000 * TENTH, [clearance(36)], "down")["why"] == "in"


def test_what_does_not_depend_on_the_cut_is_said():
    assert cut(9000 * TENTH, [clearance(60, 0)], "down")["why"] == "held"


def test_any_other_way_is_refused():
    with pytest.raises(ValueError, match="up or down"):
        cut(1, [clearance(60)], "sideways")


@given(st.integers(0, 90), st.sampled_from([BILLION, -BILLION, BILLION // 2]), st.sampled_from(["up", "down"]))
def test_a_cut_goes_its_own_way_and_brings_the_figure_in(value, sens, moves):
    found = cut(10000 * TENTH, [clearance(value, sens)], moves)
    if found["to"] is None:
        assert found["why"] == ("in" if 35 <= value <= 45 else "wrong_way")
        return
    assert found["by"] > 0 if moves == "up" else found["by"] < 0
    assert abs(value * TENTH + found["by"] * sens // BILLION - 40 * TENTH) <= 1
