"""What each told build is there to show, asked of the kernel as a phone or the board would ask it."""

from __future__ import annotations

import pytest

from demo import diary

from .told import METRIC, Shown


@pytest.fixture(scope="module")
def v8():
    return Shown("b-jet-sprint")


@pytest.fixture(scope="module")
def four():
    return Shown("b-hill-climb-race", METRIC)


@pytest.fixture(scope="module")
def single():
    return Shown("b-practice-single", METRIC)


@pytest.fixture(scope="module")
def paddock():
    return Shown("b-paddock-single", METRIC)


@pytest.mark.parametrize("key", diary.keys())
def test_every_entry_can_be_used_and_nothing_must_be_done_again(key):
    shown = Shown(key)
    assert shown.ask("fold")["flags"] == []
    overview = shown.ask("overview")
    assert overview["again"] == [] and overview["contrary"] == []
    assert not [f for f in shown.ask("review")["findings"] if f["check"] in ("readings_kept", "stale", "choices_missing", "parts")]


@pytest.mark.parametrize("key", diary.keys())
def test_parts_without_which_the_engine_is_incomplete_have_names_and_cost_is_counted(key):
    parts = Shown(key).ask("parts")
    assert [p["title"] for p in parts["places"] if p["must"] and not all(part["named"] for part in p["parts"])] == []
    assert len(parts["cost"]) == 1 and parts["cost"][0].endswith(" EUR")
    assert {"new", "used"} <= {part["state"] for place in parts["places"] for part in place["parts"]}


# ---- the V8: two things hold it


def test_the_v8_is_held_by_a_ring_that_wants_filing(v8):
    overview = v8.ask("overview")
    assert overview["next"] == "ring_gaps" and v8.status("rings_on") == "held"
    assert [h["sentence"] for h in v8.ask("status")["holds"]] == ["Second ring gap is under at cylinder 6. Until it is in, “Rings on” waits."]
    plan = v8.offers("ring_gaps")["rings"]
    assert plan["cures"] and plan["draft"]["body"]["station"] == "6" and int(plan["draft"]["body"]["turns"]) > 1
    assert [(b["station"], b["turns"]) for b in v8.bodies("ring.filed")] == [("3", "4"), ("6", "4"), ("6", "3")]


def test_its_squish_is_under_and_the_right_one_of_two_pairs_of_gaskets_is_offered(v8):
    offer = v8.offers("piston_heights")["swap"]
    assert offer["cures"] and offer["draft"]["body"]["puts"] == [{"slot": "head_gaskets", "station": "", "parts": ["gaskets-36"]}]
    assert any(row["out"] for row in offer["rows"]) and not all(row["out"] for row in offer["rows"])
    loose = [part["id"] for part in v8.ask("parts")["loose"]]
    assert {"gaskets-36", "gaskets-45"} <= set(loose)


def test_its_mains_were_levelled_by_one_exchange_of_shells(v8):
    swaps = [b["puts"] for b in v8.bodies("parts.put") if b["puts"][0]["slot"].startswith("main_shell")]
    assert [[put["station"] for put in puts] for puts in swaps] == [["1", "4"]]
    first = [b["text"] for b in v8.bodies("reading") if b["point"] == "main_bore"]
    assert len(first) == 7
    assert {f["state"] for f in v8.ask("step", step="main_bores")["fits"]} == {"in"}


def test_marek_asked_for_the_one_concession_and_somebody_else_reviewed_it(v8):
    [concession] = v8.ask("overview")["concessions"]
    assert (concession["asked_by"], concession["granted_by"], concession["reviewed_by"]) == ("Marek", "Ines", "Tomasz")
    assert v8.status("crank_end_play") == v8.status("cam_in") == "done"


def test_one_reading_is_struck_with_its_reason_and_read_again(v8):
    [struck] = v8.bodies("strike")
    assert struck["why"] and [r["text"] for r in v8.ask("status")["readings"] if r["struck"]] == ["4.0030"]


def test_its_parts_are_marked_used_and_reworked(v8):
    parts = [part for place in v8.ask("parts")["places"] for part in place["parts"]]
    assert {"new", "used", "reworked"} <= {part["state"] for part in parts}
    assert {"P1", "R8", "I3"} <= {part["mark"] for part in parts}


def test_the_rest_of_it_is_in(v8):
    assert {f["fit"] for f in v8.by_level("hold", "look")} == {"ring_gap_second", "squish"}


# ---- the four: held by its lash


def test_the_four_is_held_by_its_lash(four):
    assert four.ask("overview")["next"] == "lash" and four.status("timing_set") == "held"
    assert [h["title"] for h in four.ask("status")["holds"]] == ["Intake lash", "Exhaust lash"]


def test_five_valves_are_out_and_their_shims_can_be_shuffled_with_what_is_on_the_shelf(four):
    offer = four.offers("lash")["buckets"]
    assert sorted(row["station"] for row in offer["rows"] if row["out"]) == ["E3", "E6", "I2", "I5", "I8"]
    assert offer["cures"] and len(offer["draft"]["body"]["puts"]) == 5
    fitted = [part for put in offer["draft"]["body"]["puts"] for part in put["parts"] if part.startswith("bucket_shim")]
    assert fitted, "one shim comes from another valve"


def test_nothing_else_of_the_four_is_out(four):
    assert {f["fit"] or f["check"] for f in four.by_level("hold", "look")} == {"lash_intake", "lash_exhaust"}


# ---- the paddock single: in the middle of its head nuts


def test_the_paddock_single_stands_in_the_middle_of_a_pass_by_angle(paddock):
    assert paddock.ask("overview")["next"] == "head_torqued" and paddock.status("head_torqued") == "in_work"
    torque = paddock.ask("step", step="head_torqued")["torque"]
    assert torque["by_angle"] and torque["pass"] == 4 and torque["next"]["fastener"] == "3"
    assert {f["fit"] or f["check"] for f in paddock.by_level("hold", "look")} == {"torque_marks"}


# ---- the practice single: complete


def test_the_practice_single_is_finished_with_nothing_to_look_at(single):
    overview = single.ask("overview")
    assert overview["next"] is None and {step["status"] for step in overview["steps"]} == {"done"}
    assert single.by_level("hold", "look", "note") == []


def test_the_practice_single_has_its_log_of_the_first_fire(single):
    log = [r for r in single.ask("status")["readings"] if r["point"] == "log_pressure" and r["counts"]]
    assert {r["station"] for r in log} == {"1", "2", "5", "10", "15"} and len({r["value"] for r in log}) == 5
