"""The shuffle of bucket shims: the best of every shuffle, purchases included. Lengths in any small unit; SHIM is 0.05 mm in nm."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kernel.corrections.buckets import shuffle
from kernel.corrections.within import excess, off

SHIM = 50000
HUNDREDTH = 10000


def valve(name, lash, shim, low=20, high=30, aim=25):
    return {"id": name, "lash": lash, "shim": shim, "low": low, "high": high, "aim": aim}


def test_two_valves_cure_each_other():
    found = shuffle([valve("a", 35, 100), valve("b", 15, 110)], [], 5)
    assert [place["id"] for place in found["places"]] == ["b", "a"]
    assert [place["lash"] for place in found["places"]] == [25, 25]
    assert found["buy"] == [] and found["spare"] == [] and found["cures"]


def test_the_shelf_comes_before_the_shop():
    found = shuffle([valve("a", 35, 100)], [{"id": "s", "shim": 108}], 5)
    assert found["places"][0] == {"id": "s", "shim": 108, "lash": 27}
    assert found["buy"] == [] and found["spare"] == ["a"]


def test_what_is_bought_comes_in_steps_nearest_to_the_aim():
    found = shuffle([valve("a", 38 * HUNDREDTH, 56 * SHIM, 20 * HUNDREDTH, 30 * HUNDREDTH, 25 * HUNDREDTH)], [], SHIM)
    assert found["buy"] == [{"length": 59 * SHIM, "count": 1}]
    assert found["places"][0]["lash"] == 23 * HUNDREDTH


def test_a_third_valve_lends_its_shim_and_takes_the_one_bought():
    """Only one shim need be bought, though two valves are out."""
    found = shuffle([valve("a", 35, 100), valve("b", 25, 110), valve("c", 40, 100)], [], 5)
    assert found["cures"] and sum(b["count"] for b in found["buy"]) == 2
    better = shuffle([valve("a", 35, 100), valve("b", 30, 110), valve("c", 15, 112)], [], 5)
    assert better["cures"] and better["buy"] == []


def test_an_unmeasured_shim_stays_and_its_valve_is_said_to_be_out():
    found = shuffle([valve("a", 35, None), valve("b", 15, 110)], [], 5)
    assert found["places"][0] == {"id": "a", "shim": None, "lash": 35}
    assert found["out"] == [0] and not found["cures"]


def test_no_step_that_fits_is_not_bought():
    found = shuffle([valve("a", 35, 100, 24, 25, None)], [], 50)
    assert found["buy"] == [] and found["out"] == [0]


def test_a_step_of_nothing_and_a_name_twice_are_refused():
    with pytest.raises(ValueError, match="step above nothing"):
        shuffle([valve("a", 35, 100)], [], 0)
    with pytest.raises(ValueError, match="named twice"):
        shuffle([valve("a", 35, 100)], [{"id": "a", "shim": 110}], 5)


def by_trying_every_shuffle(valves, shelf, step):
    shims = [(v["id"], v["shim"]) for v in valves] + [(s["id"], s["shim"]) for s in shelf]

    def choices(at):
        own = valves[at]
        found = [(at, own["lash"], 0)]
        if own["shim"] is not None:
            room = own["lash"] + own["shim"]
            found += [(i, room - shim, 0) for i, (_, shim) in enumerate(shims) if i != at and shim is not None]
            found += [(None, room - size, 1) for size in range(step, 60, step) if not excess(room - size, own)]
        return found

    best = None
    for chosen in product(*[choices(at) for at in range(len(valves))]):
        used = [c[0] for c in chosen if c[0] is not None]
        if len(set(used)) == len(used):
            out = sum(1 for c, v in zip(chosen, valves) if excess(c[1], v))
            squares = sum(off(c[1], v) ** 2 for c, v in zip(chosen, valves))
            key = (out, sum(c[2] for c in chosen), squares, sum(c[0] != at for at, c in enumerate(chosen)))
            best = min(best or key, key)
    return best


@st.composite
def heads(draw):
    valves = []
    for at in range(draw(st.integers(1, 3))):
        low = draw(st.integers(2, 8))
        shim = draw(st.one_of(st.integers(10, 20), st.integers(10, 20), st.integers(10, 20), st.none()))
        valves.append(valve(f"v{at}", draw(st.integers(0, 14)), shim, draw(st.sampled_from([low, low, None])), low + draw(st.integers(0, 3)), draw(st.sampled_from([low, None]))))
    shelf = [{"id": f"s{at}", "shim": draw(st.integers(8, 22))} for at in range(draw(st.integers(0, 3)))]
    return valves, shelf, draw(st.sampled_from([1, 2, 5]))


@given(heads())
@settings(max_examples=300, deadline=None)
def test_the_best_of_every_shuffle(case):
    valves, shelf, step = case
    found = shuffle(valves, shelf, step)
    places = found["places"]
    bought = sum(b["count"] for b in found["buy"])
    squares = sum(off(p["lash"], v) ** 2 for p, v in zip(places, valves))
    assert (len(found["out"]), bought, squares, len(found["moved"])) == by_trying_every_shuffle(valves, shelf, step)
    kept = [p["id"] for p in places if p["id"] is not None]
    assert len(set(kept)) == len(kept)
    assert all(p["lash"] == v["lash"] + v["shim"] - p["shim"] for p, v in zip(places, valves) if v["shim"] is not None)
