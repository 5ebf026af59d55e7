"""Another part from the shelf. The rules are applied to every choice, over every place."""

from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st
from kernel.corrections.swap import swap
from kernel.corrections.within import excess, off


def figure(value, low=None, high=None, aim=None):
    return {"value": value, "low": low, "high": high, "aim": aim}


def gasket(name, ratio, squish):
    return {"id": name, "fit": [figure(r, 100, 110, 105) for r in ratio], "also": [figure(s, 35, 45) for s in squish]}


def test_compression_to_its_aim_without_losing_squish():
    found = swap([[gasket("now", [95, 96], [44, 45]), gasket("thin", [106, 107], [34, 35]), gasket("middle", [101, 102], [39, 40])]])
    assert found == {"ids": ["middle"], "changed": [0], "out": 0, "was_out": 2, "cures": True}


def test_nothing_on_the_shelf_is_better():
    found = swap([[gasket("now", [95, 96], [44, 45]), gasket("thin", [99, 99], [30, 31])]])
    assert found["ids"] == ["now"] and found["changed"] == [] and not found["cures"]


def test_a_part_nobody_measured_is_not_chosen():
    assert swap([[gasket("now", [95], [40]), gasket("unknown", [None], [40])]])["ids"] == ["now"]


def test_no_part_that_takes_out_what_must_stay_in_even_if_fewer_are_out_then():
    found = swap([[gasket("now", [95, 96], [44, 45]), gasket("thin", [105, 105], [34, 40])]])
    assert found["ids"] == ["now"] and found["out"] == 2


def test_what_is_out_already_and_does_not_move_is_no_hindrance():
    found = swap([[gasket("now", [95], [50]), gasket("thin", [105], [50])]])
    assert found["ids"] == ["thin"] and not found["cures"]


def test_from_over_to_under_is_worse_however_little():
    assert swap([[gasket("now", [95], [60]), gasket("thin", [105], [34])]])["ids"] == ["now"]


def test_what_must_stay_in_is_brought_back_in_without_losing_the_fit():
    assert swap([[gasket("now", [105], [50]), gasket("thin", [108], [40])]])["ids"] == ["thin"]
    assert swap([[gasket("now", [108], [50]), gasket("thin", [112], [40])]])["ids"] == ["now"]


def test_two_places_do_not_share_one_part():
    places = [[{"id": at, "fit": [figure(9, 1, 5, 3)], "also": []}, {"id": "spare", "fit": [figure(value, 1, 5, 3)], "also": []}]
              for at, value in (("a", 4), ("b", 3))]  # fmt: skip
    found = swap(places)
    assert found["ids"] == ["a", "spare"] and found["out"] == 1


@st.composite
def shelves(draw):
    value = st.integers(0, 12)
    low = draw(st.integers(2, 6))
    loose = ["s1", "s2", "s3"][: draw(st.integers(0, 3))]
    places = []
    for at in range(draw(st.integers(1, 3))):
        places.append(
            [
                {"id": name, "fit": [figure(draw(value), low, low + 3, low + 1)], "also": [figure(draw(value), 3, 9)]}
                for name in [f"own{at}", *loose]
            ]
        )
    return places


def may(then, now):
    """The law of the module: the fit nearer or more in, and nothing that must stay in worse."""

    def side(f):
        return (f["value"] > (f["high"] if f["high"] is not None else f["value"])) - (f["value"] < (f["low"] if f["low"] is not None else f["value"]))

    def standing(choice):
        every = choice["fit"] + choice["also"]
        return sum(1 for f in every if excess(f["value"], f)), sum(off(f["value"], f) ** 2 for f in choice["fit"])

    worse = any(excess(a["value"], a) and (side(a) != side(b) or excess(a["value"], a) > excess(b["value"], b)) for a, b in zip(then["also"], now["also"]))
    fewer = sum(bool(excess(f["value"], f)) for f in then["fit"]) <= sum(bool(excess(f["value"], f)) for f in now["fit"])
    return then is now or (not worse and fewer and standing(then) < standing(now))


@given(shelves())
@settings(max_examples=300, deadline=None)
def test_the_best_of_every_sharing_out(places):
    def merit(choices):
        figures = [f for choice in choices for f in choice["fit"] + choice["also"]]
        squares = sum(off(f["value"], f) ** 2 for choice in choices for f in choice["fit"])
        changed = sum(choice is not place[0] for choice, place in zip(choices, places))
        return sum(1 for f in figures if excess(f["value"], f)), squares, changed

    found = swap(places)
    every = product(*[[choice for choice in place if may(choice, place[0])] for place in places])
    every = [choices for choices in every if len({c["id"] for c in choices}) == len(places)]
    chosen = [next(c for c in place if c["id"] == name) for place, name in zip(places, found["ids"])]
    assert len(set(found["ids"])) == len(places)
    assert merit(chosen) == min(merit(choices) for choices in every)
    assert found["out"] == merit(chosen)[0]
