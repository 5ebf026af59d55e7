"""Two phones that did not know of each other."""

from __future__ import annotations

import random

from kernel.canon import canon
from kernel.door import answer

from .bench import Bench
from .test_gates import at_cam_end_play


def two_readings(second: str = "2.4482") -> Bench:
    bench = Bench()
    bench.marek.syncs()
    bench.juno.seen = bench.head
    bench.marek.reads("main_journal@3", "2.4480")
    bench.juno.reads("main_journal@3", second)
    bench.marek.syncs()
    bench.juno.syncs()
    return bench


def test_both_readings_stand_and_the_build_asks_which_is_right():
    bench = two_readings()
    asked = bench.overview()["contrary"]
    assert [(r["shown"], r["who"]) for r in asked[0]["readings"]] == [("2.4480 in", "Marek"), ("2.4482 in", "Juno")]
    assert bench.finds("contrary")


def test_no_verdict_rests_on_a_disputed_reading():
    bench = two_readings()
    bench.marek.reads("main_bore@3", "2.4505")
    fit = next(f for f in bench.view("main_bores")["fits"] if f["station"] == "3")
    assert fit["state"] == "contrary"


def test_a_person_says_which_is_right():
    bench = two_readings()
    settle = bench.overview()["contrary"][0]["readings"][1]["settle"]
    bench.marek.syncs()
    settle["body"]["why"] = "read twice, by Juno"
    bench.marek.write("contrary.settled", **settle["body"])
    assert bench.overview()["contrary"] == []
    entry = next(e for e in bench.view("journals")["entries"] if e["station"] == "3")
    assert entry["shown"] == "2.4482 in"


def test_reading_again_settles_it_too():
    bench = two_readings()
    bench.marek.syncs()
    bench.marek.reads("main_journal@3", "2.4481")
    assert bench.overview()["contrary"] == []


def test_two_equal_readings_agree():
    assert two_readings("2.4480").overview()["contrary"] == []


def test_a_struck_reading_stands_in_the_record_and_counts_no_more():
    bench = Bench()
    bench.marek.reads("main_journal@3", "2.4480")
    wrong = bench.marek.reads("main_journal@3", "2.4840")
    bench.marek.write("strike", event=wrong, why="digits turned round")
    rows = [r for r in bench.ask("fold")["readings"] if r["spot"] == "main_journal@3"]
    assert [(r["text"], r["counts"], r["struck"]) for r in rows] == [("2.4480", True, False), ("2.4840", False, True)]


def test_an_apprentice_does_not_strike_the_builders_reading():
    bench = Bench()
    read = bench.marek.reads("main_journal@3", "2.4480")
    bench.marek.syncs()
    bench.juno.write("strike", event=read, why="no")
    assert bench.ask("fold")["readings"][0]["counts"]


def test_any_batching_and_order_of_arrival_folds_to_the_same_bytes():
    bench = at_cam_end_play("6.0")
    bench.marek.syncs()
    whole = canon(bench.ask("fold"))
    for seed in range(20):
        rng = random.Random(seed)
        events = list(bench.events)
        rng.shuffle(events)
        answer({"op": "open", "build": "b-boat", "procedure": bench.procedure, "events": [], "people": {}})
        while events:
            size = rng.randint(1, 9)
            batch, events = events[:size], events[size:]
            answer({"op": "add", "build": "b-boat", "events": [dict(e) for e in batch + batch[:1]]})
        assert canon(answer({"op": "fold", "build": "b-boat"})) == whole


def test_unknown_and_misshapen_entries_are_kept_and_change_nothing():
    bench = Bench()
    before = [s["status"] for s in bench.overview()["steps"]]
    bench.marek.write("engine.sang", loudly=True)
    bench.marek.write("reading", point="main_bore")
    bench.marek.write("reading", point="main_bore", station="9", text="2.0", unit="in")
    bench.marek.write("reading", point="main_bore", station="1", text="2.0", unit="furlong")
    bench.marek.write("reading", point="main_bore", station="1", text="2..0", unit="in")
    overview = bench.overview()
    assert [s["status"] for s in overview["steps"]] == before
    assert overview["update_needed"] == 1
    assert len(bench.finds("readings_kept")) == 5


def test_a_quantity_that_may_be_null_must_still_be_named():
    bench = Bench()
    bench.marek.write("limit.set", limit="cam_end_play", authority="shop", unit="thou", source="sheet", aim=None, high="10.0")
    bench.marek.write("part.added", part="s", kind="cam_shim", title="shim")
    bench.marek.write("concession", fit="cam_end_play", station="", reason="late", granted_by="Ines")
    assert len(bench.finds("readings_kept")) == 3


def test_an_entry_of_a_newer_shape_is_kept_and_asks_for_the_update():
    bench = Bench()
    bench.marek.reads("main_journal@1", "2.4480")
    bench.events[-1]["v"] = 2
    assert bench.overview()["update_needed"] == 1
    assert bench.status("journals") == "ready"
    assert "newer version" in bench.finds("readings_kept")[0]
