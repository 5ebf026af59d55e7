"""What readings teach about shell walls. Lengths in nanometres; TENTH is a tenth of a thousandth of an inch."""

from hypothesis import given
from hypothesis import strategies as st
from kernel.corrections.walls import learn

TENTH = 2540


def read(station, pair, tenths):
    return {"station": station, "pair": pair, "clearance": tenths * TENTH}


FOUR_MAINS = [read("1", "p1", 20), read("2", "p2", 24), read("3", "p3", 24), read("4", "p4", 27)]


def test_before_any_exchange_nothing_is_known_of_differences():
    known = learn(FOUR_MAINS)
    assert known.predict("1", "p4") is None
    assert known.difference("p1", "p4") is None


def test_exchange_of_one_and_four_shows_three_tenths_and_keeps_the_sum():
    # Check value, common practice, no published source
    known = learn(FOUR_MAINS + [read("1", "p4", 23), read("4", "p1", 24)])
    assert known.difference("p1", "p4") == 3 * TENTH
    assert known.difference("p4", "p1") == -3 * TENTH
    assert known.predict("1", "p4") + known.predict("4", "p1") == (20 + 27) * TENTH
    assert known.strays == []


def test_one_reading_after_the_exchange_predicts_the_other():
    known = learn(FOUR_MAINS + [read("1", "p4", 23)])
    assert known.predict("4", "p1") == 24 * TENTH


def test_differences_chain_over_stations_that_shared_a_pair():
    known = learn([read("1", "p1", 20), read("2", "p2", 24), read("3", "p3", 26), read("1", "p2", 21), read("2", "p3", 26)])
    assert known.difference("p1", "p2") == 1 * TENTH
    assert known.difference("p1", "p3") == 3 * TENTH
    assert known.predict("3", "p1") == 23 * TENTH


def test_stations_never_linked_stay_unknown():
    known = learn(FOUR_MAINS + [read("1", "p4", 23)])
    assert known.predict("2", "p3") is None
    assert known.predict("9", "p1") is None
    assert known.predict("1", "a pair nobody read") is None


def test_walls_measured_with_the_micrometer_link_everything():
    known = learn(FOUR_MAINS, walls={"p1": 1000 * TENTH, "p4": 997 * TENTH})
    assert known.predict("1", "p4") == 23 * TENTH
    assert known.predict("4", "p1") == 24 * TENTH
    assert known.predict("2", "p1") is None  # its own pair was not measured


def test_bare_bores_link_everything():
    known = learn(FOUR_MAINS, rooms={"1": 1020 * TENTH, "4": 1024 * TENTH})
    assert known.difference("p1", "p4") == 3 * TENTH
    assert known.predict("4", "p1") == 24 * TENTH


def test_bare_bore_and_wall_predict_a_pair_never_fitted():
    assert learn([], rooms={"1": 1020 * TENTH}, walls={"new": 996 * TENTH}).predict("1", "new") == 24 * TENTH


def test_the_later_reading_of_a_spot_counts():
    known = learn(FOUR_MAINS + [read("1", "p1", 21)])
    assert known.predict("1", "p1") == 21 * TENTH
    assert known.strays == []  # read again is not a contradiction


def test_a_contradicted_older_reading_is_named_and_newer_ones_predict():
    readings = [read("1", "p1", 20), read("4", "p4", 27), read("1", "p4", 23), read("4", "p1", 25)]
    known = learn(readings)
    assert known.predict("1", "p1") == 20 * TENTH  # as it was read with this very pair
    assert known.difference("p1", "p4") == 2 * TENTH  # from the three newest
    assert known.strays == [{"station": "1", "pair": "p1", "clearance": 20 * TENTH, "expected": 21 * TENTH}]


def test_readings_count_before_walls_and_walls_before_bores():
    readings = FOUR_MAINS + [read("1", "p4", 23)]
    assert learn(readings, walls={"p1": 1000 * TENTH, "p4": 990 * TENTH}).difference("p1", "p4") == 3 * TENTH
    known = learn([read("1", "p1", 20)], rooms={"1": 1025 * TENTH, "2": 1030 * TENTH}, walls={"p1": 1000 * TENTH})
    assert known.predict("2", "p1") == 30 * TENTH
    assert known.predict("1", "p1") == 20 * TENTH


sizes = st.lists(st.integers(-40, 40), min_size=4, max_size=4)
spots = st.lists(st.tuples(st.integers(0, 3), st.integers(0, 3)), max_size=9)


@given(sizes, sizes, spots)
def test_readings_without_error_never_predict_falsely(rooms, walls, read_spots):
    known = learn([read(str(s), str(p), rooms[s] - walls[p]) for s, p in read_spots])
    assert known.strays == []
    for s in range(4):
        for p in range(4):
            assert known.predict(str(s), str(p)) in (None, (rooms[s] - walls[p]) * TENTH)
            assert known.difference(str(s), str(p)) in (None, (walls[s] - walls[p]) * TENTH)


@given(spots)
def test_predicts_exactly_where_a_chain_of_readings_leads(read_spots):
    known = learn([read(str(s), str(p), 0) for s, p in read_spots])
    reached = {("s", 0)}
    for _ in range(8):
        for s, p in read_spots:
            if ("s", s) in reached or ("p", p) in reached:
                reached |= {("s", s), ("p", p)}
    for p in range(4):
        assert (known.predict("0", str(p)) is not None) == (("p", p) in reached)
