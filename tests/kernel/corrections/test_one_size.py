"""The one size that brings several figures in, held against every size there is."""

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st
from kernel.corrections.one_size import BILLION, one_size

slopes = st.sampled_from([BILLION, -BILLION, 2 * BILLION, -BILLION // 2, 3 * BILLION // 7, 0])


@st.composite
def figures(draw):
    low = draw(st.integers(-10, 10))
    ends = draw(st.sampled_from([(low, low + 4), (low, None), (None, low), (None, None)]))
    return {"value": draw(st.integers(-12, 12)), "sens": draw(slopes), "low": ends[0], "high": ends[1], "aim": None, "wanted": True}


def is_in(figure, now, size):
    at = figure["value"] + Fraction(figure["sens"], BILLION) * (size - now)
    return (figure["low"] is None or at >= figure["low"]) and (figure["high"] is None or at <= figure["high"])


@given(st.lists(figures(), min_size=1, max_size=3), st.integers(-5, 5))
@settings(max_examples=500, deadline=None)
def test_the_range_is_exactly_the_sizes_at_which_all_are_in(found, now):
    answer = one_size(now, found)
    cures = [size for size in range(-120, 121) if all(is_in(f, now, size) for f in found)]
    if answer["best"] is None:
        assert cures == []
        return
    low = -120 if answer["low"] is None else answer["low"]
    high = 120 if answer["high"] is None else answer["high"]
    assert cures == list(range(max(low, -120), min(high, 120) + 1))
    assert all(is_in(f, now, answer["best"]) for f in found)


def test_between_two_aims_the_squares_decide():
    def aimed(value, aim, wanted=True):
        return {"value": value, "sens": BILLION, "low": 0, "high": 100, "aim": aim, "wanted": wanted}

    assert one_size(0, [aimed(10, 20), aimed(10, 40)])["best"] == 20
    assert one_size(0, [aimed(10, 20), aimed(10, 40, wanted=False)])["best"] == 10


def test_a_figure_that_does_not_depend_on_it_holds_it():
    answer = one_size(0, [{"value": 9, "sens": 0, "low": 0, "high": 5, "aim": None}])
    assert answer["held"] and answer["best"] is None
