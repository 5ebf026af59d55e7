"""Optimal assignment, held against worked examples and against a reference library on random matrices."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kernel.corrections.assignment import assign
from scipy.optimize import linear_sum_assignment


def test_worked_example():
    # Source: SciPy reference guide, scipy.optimize.linear_sum_assignment, "Examples"
    assert assign([[4, 1, 3], [2, 0, 5], [3, 2, 2]]) == ([1, 0, 2], 5)


def test_spare_columns_are_left_alone():
    assert assign([[5, 9, 1], [9, 2, 9]]) == ([2, 1], 3)


def test_equal_choices_leave_everything_where_it_is():
    assert assign([[0, 0, 0], [0, 0, 0], [0, 0, 0]]) == ([0, 1, 2], 0)


def test_nothing_to_assign():
    assert assign([]) == ([], 0)


def test_costs_beyond_machine_words_stay_exact():
    big = 10**24
    assert assign([[big + 1, big], [big, big + 2]]) == ([1, 0], 2 * big)


def test_more_rows_than_columns_is_refused():
    with pytest.raises(ValueError, match="at least as many columns"):
        assign([[1], [2]])


def test_ragged_rows_are_refused():
    with pytest.raises(ValueError, match="same number of columns"):
        assign([[1, 2], [3]])


@st.composite
def matrices(draw):
    rows = draw(st.integers(1, 7))
    width = draw(st.integers(rows, 9))
    row = st.lists(st.integers(-50, 50), min_size=width, max_size=width)
    return draw(st.lists(row, min_size=rows, max_size=rows))


@given(matrices())
def test_total_is_the_reference_total(cost):
    columns, total = assign(cost)
    rows, reference = linear_sum_assignment(cost)
    assert total == sum(cost[i][j] for i, j in zip(rows, reference))
    assert total == sum(cost[i][columns[i]] for i in range(len(cost)))
    assert len(set(columns)) == len(columns)
