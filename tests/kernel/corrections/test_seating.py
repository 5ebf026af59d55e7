"""An assignment that is kept optimal while costs change, held against scipy after every change."""

import numpy
from hypothesis import given, settings
from hypothesis import strategies as st
from kernel.corrections.seating import Seating
from scipy.optimize import linear_sum_assignment

cost = st.integers(0, 30)


def least(table):
    rows, columns = linear_sum_assignment(numpy.array(table))
    return int(numpy.array(table)[rows, columns].sum())


@st.composite
def changes(draw):
    size = draw(st.integers(1, 6))
    table = draw(st.lists(st.lists(cost, min_size=size, max_size=size), min_size=size, max_size=size))
    spots = st.tuples(st.integers(0, size - 1), st.integers(0, size - 1), cost)
    return table, draw(st.lists(st.lists(spots, min_size=1, max_size=4), max_size=8))


@given(changes())
@settings(max_examples=200, deadline=None)
def test_every_change_leaves_the_least_total(case):
    table, rounds = case
    seating = Seating([list(row) for row in table])
    seating.settle()
    assert seating.total() == least(table)
    for several in rounds:
        for row, column, new in several:
            table[row][column] = new
            seating.set(row, column, new)
        seating.settle()
        assert sorted(seating.part_of) == list(range(len(table)))
        assert seating.total() == least(table)


def test_the_example_of_the_scipy_documentation():
    seating = Seating([[4, 1, 3], [2, 0, 5], [3, 2, 2]])
    seating.settle()
    assert (seating.part_of, seating.total()) == ([1, 0, 2], 5)
