"""What to order where the halves on hand will not do. Figures in nm; small ones do."""

from kernel.corrections.judging import Limits
from kernel.corrections.to_order import to_order


def test_the_one_that_is_out_is_brought_to_the_aim():
    assert to_order([24, 10, 26], Limits(20, 30, 25, None)) == [0, -15, 0]


def test_as_near_the_aim_as_the_level_lets_it_while_the_others_stay():
    assert to_order([24, 24, 10], Limits(5, 30, 18, 5)) == [0, 0, -9]


def test_all_in_but_uneven_changes_the_fewest():
    assert to_order([21, 22, 29], Limits(20, 30, 25, 3)) == [0, 0, 5]


def test_one_limit_only_is_just_met():
    assert to_order([10, 24], Limits(20, None, None, None)) == [-10, 0]
    assert to_order([10, 24], Limits(None, 20, None, None)) == [0, 4]


def test_all_in_and_level_orders_nothing():
    assert to_order([24, 25], Limits(20, 30, 25, 3)) == [0, 0]
