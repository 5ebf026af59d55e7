"""Shell proposals against trying everything: no cure with fewer moves, none as short that is better, no effort better."""

from hypothesis import given, settings
from hypothesis import strategies as st
from kernel.corrections.shells import propose

from .every_way import Case


@st.composite
def benches(draw):
    count = draw(st.integers(2, 4))
    wall = st.integers(97, 103)
    walls = st.lists(wall, min_size=count, max_size=count)
    rooms = draw(st.lists(st.integers(218, 232), min_size=count, max_size=count))
    shelf = draw(st.lists(st.tuples(st.sampled_from(["upper", "lower", "either"]), wall), max_size=3))
    low = draw(st.integers(16, 24))
    high = low + draw(st.integers(2, 8))
    case = Case(rooms, draw(walls), draw(walls), shelf, low, high, draw(st.integers(low, high)), draw(st.one_of(st.none(), st.integers(1, 8))))
    now = case.clearances(case.start())
    if max(now) > min(now) and draw(st.booleans()):  # all in, but not level
        case.low, case.high = min(now) - draw(st.integers(0, 2)), max(now) + draw(st.integers(0, 2))
        case.aim, case.level = draw(st.integers(min(now), max(now))), draw(st.integers(0, max(now) - min(now) - 1))
    return case


def answers_for(case, certain):
    return propose(
        case.stations, case.uppers, case.lowers, case.shelf, case.walls, {}, case.readings(), case.low, case.high, case.aim, case.level, certain
    )


@given(benches())
@settings(max_examples=250, deadline=None)
def test_fewest_moves_then_the_best_of_those(case):
    deepest = 3 if len(case.stations) < 4 else 2
    answers = answers_for(case, deepest)
    if case.shortfall(case.start()) == (0, 0):
        assert answers == []
        return
    best = answers[0]
    for moves, layer in enumerate(case.reachable(deepest)):
        cures = [placing for placing in layer if case.shortfall(placing) == (0, 0)]
        if cures:
            assert best["cures"] and len(best["moves"]) == moves
            assert case.finish(case.after(best["moves"])) == min(case.finish(placing) for placing in cures)
            return
    assert not best["cures"] or len(best["moves"]) > deepest


@given(benches())
@settings(max_examples=150, deadline=None)
def test_where_two_moves_do_not_cure_no_two_moves_come_further_in(case):
    answers = answers_for(case, 2)
    if not answers or answers[0]["cures"]:
        return
    layers = case.reachable(2)
    least = min((case.shortfall(placing), moves, case.finish(placing)) for moves, layer in enumerate(layers) for placing in layer)
    moves, placing = answers[0]["moves"], case.after(answers[0]["moves"])
    if len(moves) <= 2:
        assert (case.shortfall(placing), len(moves), case.finish(placing)) == least
    else:
        assert case.shortfall(placing)[0] < least[0][0]  # carried further only to take one more in


@given(benches())
@settings(max_examples=150, deadline=None)
def test_what_is_said_is_what_the_moves_do(case):
    for answer in answers_for(case, 3):
        placing = case.after(answer["moves"])
        changed = {s: list(then) for s, now, then in zip(case.stations, case.start(), placing) if now != then}
        assert answer["placing"] == changed
        assert answer["predicted"] == dict(zip(case.stations, case.clearances(placing)))
        assert answer["cures"] == (case.shortfall(placing) == (0, 0))
        assert answer["kind"] == ("none" if not answer["moves"] else "shelf" if any(m["part"] for m in answer["moves"]) else "exchange")
        fitted = [half for pair in placing for half in pair]
        assert len(set(fitted)) == len(fitted)


@given(benches())
@settings(max_examples=150, deadline=None)
def test_what_is_ordered_would_bring_all_in_and_level(case):
    for answer in answers_for(case, 2):
        ordered = {order["station"]: order["by"] for order in answer["order"]}
        assert bool(ordered) != answer["cures"]
        clearances = [c - ordered.get(s, 0) for s, c in answer["predicted"].items()]
        assert all(case.low <= c <= case.high for c in clearances)
        assert case.level is None or max(clearances) - min(clearances) <= case.level
