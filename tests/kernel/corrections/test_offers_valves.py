"""Bucket shims, spring stacks, pushrod lengths and adjusting screws, as the builder meets them."""

from __future__ import annotations

from tests.kernel.bench import METRIC

from .every_method import MethodBench, after


def lash() -> MethodBench:
    bench = MethodBench()
    bench.reads("intake_gap", "0.0150", "0.0100")
    bench.reads("exhaust_gap", "0.0060", "0.0130")
    bench.measures("mm", intake_shim_I1="2.50", intake_shim_I2="2.55", exhaust_shim_E1="2.65")
    return bench


def test_shims_change_places_over_intake_and_exhaust():
    bench = lash()
    bench.measures("mm", exhaust_shim_E2="2.60")
    (best,) = bench.offers("lash")
    assert (best["kind"], best["cures"]) == ("buckets", True)
    assert {(put["station"], put["parts"][0]) for put in best["draft"]["body"]["puts"]} == {
        ("I1", "exhaust_shim@E2"),
        ("E1", "intake_shim@I1"),
        ("E2", "exhaust_shim@E1"),
    }
    bench.does_it(best)
    assert bench.offers("lash") == [], "the lash must be read again first"
    bench.reads("intake_gap", after(best)["I1"].replace("11.1", "0.0111"), "")
    bench.reads("exhaust_gap", "0.0119", "0.0110")
    assert bench.offers("lash") == []


def test_a_shim_nobody_measured_stays_and_is_named():
    (best,) = lash().offers("lash")
    assert not best["cures"] and "E2" in best["basis"] and "E2" in best["says"]
    assert "E2" not in [put["station"] for put in best["draft"]["body"]["puts"]]


def test_what_is_to_buy_is_said_in_steps_and_done_when_it_is_here():
    bench = lash()
    bench.measures("mm", exhaust_shim_E2="2.30")
    (best,) = bench.offers("lash", units=METRIC)
    assert best["draft"] is None and not best["cures"]
    assert "To buy: 1 of 2.4" in best["says"] and "mm" in best["says"]
    size = best["says"].split("To buy: 1 of ")[1].split(" mm")[0]
    bench.shelves("bucket_shim", "mm", bought=size)
    (best,) = bench.offers("lash")
    assert best["cures"] and "bought" in str(best["draft"])


def test_springs_are_packed_and_a_lock_gives_back():
    bench = MethodBench()
    bench.reads("height", "1.948", "1.850")
    bench.shelves("spring_shim", a="0.030", b="0.015", c="0.060")
    (first,) = bench.offers("springs")
    assert first["draft"]["body"]["puts"] == [{"slot": "spring_shims", "station": "I1", "parts": ["b", "a"]}]
    assert not first["cures"] and "give back: I2 0.0500 in" in first["says"] and "lock" in first["basis"]
    bench.marek.write("part.measured", part="lock@I2", text="0", unit="in")
    bench.shelves("lock", fifty="0.050")
    (best,) = bench.offers("springs")
    assert best["cures"] and after(best) == {"I1": "1.9030", "I2": "1.9000"}
    bench.does_it(best)
    assert bench.offers("springs") == []
    bench.reads("height", "1.903", "1.900")
    assert bench.offers("springs") == []


def test_what_is_too_high_with_nothing_to_put_under_it_is_ordered():
    bench = MethodBench()
    bench.reads("height", "1.948", "1.900")
    (only,) = bench.offers("springs")
    assert (only["kind"], only["draft"]) == ("none", None) and "take off: I1 0.0480 in" in only["says"]


def test_the_nearest_lengths_to_order():
    bench = MethodBench()
    bench.reads("wanted_length", "7.795", "")
    assert bench.offers("pushrods") == []
    bench.reads("wanted_length", "", "7.830")
    (only,) = bench.offers("pushrods")
    assert only["title"] == "Pushrod length: order 1 of 7.8000 in and 1 of 7.8500 in"
    assert "One length for all: 7.8000 in" in only["says"]


def test_turns_wait_for_the_ratio_and_then_come_true():
    bench = MethodBench()
    bench.reads("screw_lash", "0.033", "0.0111")
    assert bench.offers("screws") == []
    bench.reads("arm", "1.5", "1.5", unit=":1")
    (only,) = bench.offers("screws")
    assert "E1 in 110°" in only["title"] and "E2" not in only["title"]
    assert after(only) == {"E1": "10.1", "E2": "11.1"} and only["cures"]


def test_preload_goes_up_by_turning_in():
    bench = MethodBench()
    bench.reads("plunger", "0.005", "0.050")
    (only,) = bench.offers("screws")
    assert "E1 in 180°" in only["title"] and "E2 out 145°" in only["title"]
