"""The cam end play shim stack. Lengths in nanometres; THOU is a thousandth of an inch."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kernel.corrections.shims import stack

THOU = 25400


def shims(**thicknesses):
    return [{"id": name, "thickness": thou * THOU} for name, thou in thicknesses.items()]


def test_fifty_thou_of_play_and_a_stack_of_forty_five_leave_five():
    # Check value, common practice, no published source
    answer = stack(50 * THOU, [], shims(a=30, b=15), 5 * THOU, 10 * THOU, 5 * THOU)
    assert answer["ids"] == ["a", "b"]
    assert answer["thickness"] == 45 * THOU
    assert answer["play"] == 5 * THOU
    assert answer["cures"] and answer["order"] is None


def test_the_fitted_stack_is_part_of_the_sum():
    answer = stack(5 * THOU, shims(a=45), shims(b=40), 8 * THOU, 12 * THOU, 10 * THOU)
    assert answer["ids"] == ["b"]
    assert answer["play"] == 10 * THOU
    assert answer["keeps"] == 0


def test_near_enough_with_one_shim_beats_exact_with_two():
    on_hand = shims(a=20, b=20, one=39)
    assert stack(50 * THOU, [], on_hand, 8 * THOU, 12 * THOU, 10 * THOU, near=THOU)["ids"] == ["one"]
    assert stack(50 * THOU, [], on_hand, 8 * THOU, 12 * THOU, 10 * THOU, near=0)["ids"] == ["a", "b"]


def test_fitted_shims_stay_where_others_are_no_better():
    answer = stack(30 * THOU, shims(z=20), shims(a=20, b=20), 9 * THOU, 11 * THOU, 10 * THOU)
    assert answer["ids"] == ["a", "z"]
    assert answer["keeps"] == 1


def test_never_no_play_even_where_the_limits_would_allow_it():
    answer = stack(20 * THOU, [], shims(a=20), -5 * THOU, 5 * THOU, 0)
    assert answer["ids"] == []
    assert not answer["cures"]
    assert answer["play"] == 20 * THOU


def test_no_play_with_no_shim_at_all_cannot_be_shimmed():
    answer = stack(-10 * THOU, shims(a=10), shims(b=5), 5 * THOU, 10 * THOU, 7 * THOU)
    assert answer["ids"] is None and answer["play"] is None
    assert not answer["cures"] and answer["order"] is None


def test_nothing_on_hand_says_what_to_order():
    answer = stack(50 * THOU, [], shims(a=20), 8 * THOU, 12 * THOU, 10 * THOU)
    assert not answer["cures"]
    assert answer["ids"] == ["a"] and answer["play"] == 30 * THOU  # the nearest there is
    assert answer["order"] == 40 * THOU


def test_on_the_limit_is_in():
    answer = stack(50 * THOU, [], shims(a=42), 8 * THOU, 12 * THOU, 10 * THOU)
    assert answer["cures"] and answer["play"] == 8 * THOU
    one_past = stack(50 * THOU - 1, [], shims(a=42), 8 * THOU, 12 * THOU, 10 * THOU)
    assert not one_past["cures"]


def test_without_an_aim_the_middle_of_the_limits_is_aimed_at():
    assert stack(50 * THOU, [], shims(a=41, b=40), 8 * THOU, 12 * THOU)["ids"] == ["b"]


def test_one_limit_only():
    assert stack(50 * THOU, [], shims(a=41, b=45), 5 * THOU, None)["ids"] == ["b"]


def test_a_shim_nobody_measured_is_refused():
    with pytest.raises(ValueError, match="Shim a has no thickness"):
        stack(50 * THOU, [], shims(a=0), 5 * THOU, 10 * THOU)


def test_a_shim_listed_twice_is_refused():
    with pytest.raises(ValueError, match="listed twice"):
        stack(50 * THOU, shims(a=5), shims(a=5), 5 * THOU, 10 * THOU)


def test_neither_limit_nor_aim_is_refused():
    with pytest.raises(ValueError, match="limit or an aim"):
        stack(50 * THOU, [], [], None, None)


def test_twenty_shims_off_any_common_grid_still_come_in():
    on_hand = [{"id": "s%02d" % i, "thickness": 100003 + 17389 * i * i} for i in range(20)]
    answer = stack(8000000, [], on_hand, 126000, 128000, 127000)
    assert answer["cures"] and abs(answer["deviation"]) <= 1000


def by_trying_every_stack(play_now, fitted, on_hand, low, high, aim, near):
    """The rules of the module, applied to every subset."""
    free = play_now + sum(shim["thickness"] for shim in fitted)
    worn = {shim["id"] for shim in fitted}
    best = None
    everything = fitted + on_hand
    for count in range(len(everything) + 1):
        for chosen in combinations(everything, count):
            play = free - sum(shim["thickness"] for shim in chosen)
            if play <= 0:
                continue
            off, outside = abs(play - aim), max(low - play, play - high, 0)
            rule = (2, outside, off, count) if outside else (0, count, off) if off <= near else (1, off, count)
            ids = sorted(shim["id"] for shim in chosen)
            best = min(best or (rule, 99, []), (rule, -len(worn & set(ids)), ids))
    return best


@st.composite
def stacks(draw):
    unit = draw(st.sampled_from([1, 5]))
    thicknesses = draw(st.lists(st.integers(1, 12), max_size=7))
    names = draw(st.permutations(["s%d" % i for i in range(len(thicknesses))]))
    everything = [{"id": name, "thickness": t * unit} for name, t in zip(names, thicknesses)]
    cut = draw(st.integers(0, len(everything)))
    low = draw(st.integers(-2, 20))
    high = low + draw(st.integers(0, 10))
    return (draw(st.integers(-5, 60)), everything[:cut], everything[cut:], low, high, draw(st.integers(low, high)), draw(st.integers(0, 4)))


@given(stacks())
@settings(max_examples=300)
def test_the_best_of_every_possible_stack(case):
    answer, best = stack(*case), by_trying_every_stack(*case)
    if best is None:
        assert answer["ids"] is None and not answer["cures"]
        return
    rule, kept, ids = best
    assert answer["ids"] == ids
    assert answer["keeps"] == -kept
    assert answer["cures"] == (rule[0] < 2)
    assert answer["deviation"] == answer["play"] - case[5]
