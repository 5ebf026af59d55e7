"""Filing plans for ring gaps. Lengths in nanometres; THOU is a thousandth of an inch."""

from hypothesis import given, settings
from hypothesis import strategies as st
from kernel.corrections.rings import FEW, MOST_A_TURN, TURN, next_cut

THOU = 25400
GAP = {"low": 17 * THOU, "high": 20 * THOU, "aim": 18 * THOU}


def cut(turns, gain_tenths):
    return {"turns": turns * TURN, "gain": gain_tenths * THOU // 10}


def test_a_first_cut_is_a_few_turns_and_a_reading():
    plan = next_cut(10 * THOU, GAP, [])
    assert (plan["to_go"], plan["turns"], plan["first"], plan["most"]) == (8 * THOU, FEW, True, None)


def test_the_next_cut_rests_on_the_largest_gain_seen():
    """5 turns took 1.5 thou and 4 turns took 1.6 thou: at 0.4 a turn, 6.5 thou to go is 16 turns."""
    plan = next_cut(11 * THOU + THOU // 2, GAP, [cut(5, 15), cut(4, 16)])
    assert plan["turns"] == 16
    assert plan["most"] == 11 * THOU + THOU // 2 + 16 * 4 * THOU // 10
    assert plan["least"] == 11 * THOU + THOU // 2 + 16 * 3 * THOU // 10


def test_nearer_than_one_turn_no_whole_turn_is_left():
    plan = next_cut(18 * THOU - THOU // 4, GAP, [cut(2, 8)])
    assert plan["turns"] == 0 and plan["to_go"] == THOU // 4


def test_too_large_is_never_filed():
    plan = next_cut(21 * THOU, GAP, [cut(5, 15)])
    assert plan["over"] and plan["turns"] == 0 and plan["to_go"] == 0


def test_without_an_aim_the_low_limit_is_filed_to():
    assert next_cut(10 * THOU, {"low": 17 * THOU, "high": None, "aim": None}, [cut(1, 10)])["turns"] == 7


def test_a_cut_that_gained_nothing_teaches_nothing():
    assert next_cut(10 * THOU, GAP, [cut(3, 0)])["first"]


@given(st.integers(0, 30), st.lists(st.tuples(st.integers(1, 40), st.integers(-2, 60)), max_size=6))
@settings(max_examples=300)
def test_no_cut_passes_the_aim_at_any_rate_seen_and_one_turn_more_could(gap, seen):
    cuts = [cut(turns, gain) for turns, gain in seen]
    plan = next_cut(gap * THOU, GAP, cuts)
    rates = [c["gain"] * TURN / c["turns"] for c in cuts if c["gain"] > 0] or [MOST_A_TURN]
    to_go = max(0, 18 * THOU - gap * THOU)
    assert plan["to_go"] == to_go
    assert plan["turns"] * max(rates) <= to_go + 1e-3
    if to_go and not plan["first"]:
        assert (plan["turns"] + 1) * max(rates) > to_go - 1e-3
