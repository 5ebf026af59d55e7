"""Parts that change places: the best of every placing, by trying them all and by scipy."""

from itertools import permutations

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kernel.corrections.match import match
from kernel.corrections.within import excess
from scipy.optimize import linear_sum_assignment

TENTH = 2540


def limit(low, high, aim):
    return {"low": low, "high": high, "aim": aim}


def merit(placing, figures, now, limits, level):
    """The three rules of the module, applied to one placing; None when a part may not go there."""
    read = [figures[at][part] for at, part in enumerate(placing)]
    if None in read:
        return None
    spread = max(read) - min(read)
    out = sum(1 for f, one in zip(read, limits) if excess(f, one)) + (level is not None and spread > level)
    aims = [one["aim"] for one in limits]
    settles = spread if None in aims else sum((f - aim) ** 2 for f, aim in zip(read, aims))
    return out, settles, sum(part != own for part, own in zip(placing, now))


def best_of_all(figures, now, limits, level):
    every = permutations(range(len(figures[0])), len(now))
    return min(m for placing in every if (m := merit(placing, figures, now, limits, level)))


@st.composite
def benches(draw):
    stations = draw(st.integers(1, 4))
    parts = stations + draw(st.integers(0, 2))
    read = st.one_of(st.integers(0, 12), st.integers(0, 12), st.integers(0, 12), st.none())
    figures = draw(st.lists(st.lists(read, min_size=parts, max_size=parts), min_size=stations, max_size=stations))
    now = draw(st.permutations(range(parts)))[:stations]
    for at in range(stations):
        figures[at][now[at]] = draw(st.integers(0, 12))
    aimed = draw(st.booleans())
    limits = []
    for _ in range(stations):
        low = draw(st.integers(0, 10))
        ends = draw(st.sampled_from([(low, low + 3), (low, None), (None, low + 3), (None, None)]))
        limits.append(limit(*ends, low + 1 if aimed else None))
    return figures, now, limits, draw(st.one_of(st.none(), st.integers(0, 5)))


@given(benches())
@settings(max_examples=600, deadline=None)
def test_the_best_of_every_placing(case):
    figures, now, limits, level = case
    found = match([list(row) for row in figures], now, limits, level)
    assert merit(found["parts"], figures, now, limits, level) == best_of_all(figures, now, limits, level)
    assert found["figures"] == [figures[at][part] for at, part in enumerate(found["parts"])]
    assert found["cures"] == (merit(found["parts"], figures, now, limits, level)[0] == 0)
    assert found["moved"] == [at for at in range(len(now)) if found["parts"][at] != now[at]]


@given(st.lists(st.lists(st.integers(0, 200), min_size=8, max_size=8), min_size=6, max_size=8), st.integers(0, 200))
@settings(max_examples=60, deadline=None)
def test_with_an_aim_the_squares_sum_to_what_scipy_finds(figures, aim):
    """An outside check with eight parts, where trying all placings would take too long."""
    squares = (numpy.array(figures) - aim) ** 2
    rows, columns = linear_sum_assignment(squares)
    found = match(figures, list(range(len(figures))), [limit(None, None, aim)] * len(figures))
    assert sum((f - aim) ** 2 for f in found["figures"]) == int(squares[rows, columns].sum())


@given(st.lists(st.integers(0, 500), min_size=2, max_size=8), st.data())
@settings(max_examples=60, deadline=None)
def test_two_sums_are_levelled_by_pairing_opposite_orders(sides, data):
    """Levelling two sums with one kind of part: the largest goes to the smallest (common practice, no published source)."""
    parts = data.draw(st.lists(st.integers(0, 500), min_size=len(sides), max_size=len(sides)))
    figures = [[side + part for part in parts] for side in sides]
    found = match(figures, list(range(len(sides))), [limit(None, None, None)] * len(sides))
    paired = [a + b for a, b in zip(sorted(sides), sorted(parts, reverse=True))]
    assert found["spread"] == max(paired) - min(paired)


def test_four_bores_and_four_pistons():
    bores, pistons = [40304, 40300, 40306, 40302], [40262, 40260, 40258, 40264]
    figures = [[(bore - piston) * TENTH for piston in pistons] for bore in bores]
    found = match(figures, [0, 1, 2, 3], [limit(38 * TENTH, 46 * TENTH, 42 * TENTH)] * 4)
    assert found["cures"] and found["parts"] == [0, 2, 3, 1]
    assert found["figures"] == [42 * TENTH] * 4


def test_nothing_moves_where_nothing_is_won():
    assert match([[5, 5], [5, 5]], [1, 0], [limit(0, 9, 5)] * 2)["moved"] == []


def test_a_spare_goes_in_only_where_it_helps():
    found = match([[9, 5, 6], [5, 6, 9]], [0, 1], [limit(5, 7, 6)] * 2)
    assert found["parts"] == [2, 1] and found["moved"] == [0] and found["cures"]


def test_what_stays_out_is_named():
    found = match([[1, 20], [20, 1]], [0, 1], [limit(5, 7, 6)] * 2)
    assert found["out"] == [0, 1] and not found["cures"]


def test_a_station_that_is_not_read_and_a_part_twice_are_refused():
    with pytest.raises(ValueError, match="has no figure"):
        match([[None, 1]], [0], [limit(0, 1, None)])
    with pytest.raises(ValueError, match="same part"):
        match([[1, 1], [1, 1]], [0, 0], [limit(0, 1, None)] * 2)
