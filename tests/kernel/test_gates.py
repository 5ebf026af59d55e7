"""Gates and holds, in the bench's words."""

from __future__ import annotations

import pytest

from .bench import METRIC, Bench

JOURNALS = ["2.4480", "2.4481", "2.4480", "2.4479", "2.4480"]
BORES = ["2.4505", "2.4506", "2.4504", "2.4503", "2.4505"]


def measured(bores=BORES) -> Bench:
    bench = Bench()
    bench.marek.does("journals", main_journal=JOURNALS)
    bench.marek.does("shells_in")
    bench.marek.does("caps_for_measuring")
    bench.marek.does("main_bores", main_bore=bores)
    bench.marek.does("caps_off")
    return bench


def at_cam_end_play(play: str) -> Bench:
    bench = measured()
    for step in ("crank_in", "caps_torqued", "thrust_seated", "thrust_cap_torqued", "crank_turns"):
        bench.marek.does(step)
    bench.marek.does("crank_end_play", crank_float=["7.0"])
    bench.marek.does("cam_in")
    bench.marek.does("cam_end_play", cam_float=[play])
    return bench


def test_a_new_build_starts_with_the_journals_and_says_why_the_others_wait():
    overview = Bench().overview()
    assert overview["next"] == "journals"
    waits = {s["id"]: s["why"] for s in overview["steps"]}
    assert waits["shells_in"] == ["Waits for “Read the main journals”."]


def test_the_crank_goes_in_when_every_main_is_in():
    assert measured().status("crank_in") == "ready"


def test_one_main_over_holds_the_crank_and_the_hold_says_all():
    bench = measured(BORES[:4] + ["2.4515"])
    assert bench.status("crank_in") == "held"
    hold = bench.view("crank_in")["holds"][0]
    assert hold["sentence"] == "Main clearance is over at main 5. Until it is in, “Crank in” waits."
    fit = hold["fits"][0]
    assert (fit["value"], fit["says"], fit["working"]) == ("3.5", "over by 0.5", "2.4515 − 2.4480")
    assert "common practice, no published source" in fit["limit"]["says"]


@pytest.mark.parametrize(("units", "value"), [({"length": "thou", "torque": "lbf.ft"}, "2.0"), (METRIC, "0.051")])
def test_exactly_on_the_lower_limit_is_in(units, value):
    """2.4505 in - 2.4485 in against 0.0020 in: in, and said to be close. Common practice, no published source."""
    bench = Bench()
    bench.marek.reads("main_journal@1", "2.4485")
    bench.marek.reads("main_bore@1", "2.4505")
    fit = bench.view("main_bores", units=units)["fits"][0]
    assert (fit["state"], fit["value"], fit["says"], fit["close"]) == ("in", value, "right on the lower limit", True)


def test_the_same_bore_typed_in_millimetres_is_in_too():
    """62.2427 mm - 62.1919 mm = 0.0508 mm = 0.0020 in exactly (25.4 mm to the inch, NIST SP 811)."""
    bench = Bench()
    bench.marek.reads("main_journal@1", "62.1919", "mm")
    bench.marek.reads("main_bore@1", "62.2427", "mm")
    fit = bench.view("main_bores")["fits"][0]
    assert (fit["state"], fit["raw"]["value"]) == ("in", 50_800)


def test_half_a_tenth_under_the_limit_is_under():
    bench = Bench()
    bench.marek.reads("main_journal@1", "2.44850")
    bench.marek.reads("main_bore@1", "2.45045")
    assert bench.view("main_bores")["fits"][0]["state"] == "under"


def test_the_timing_set_waits_for_cam_end_play():
    bench = at_cam_end_play("41.0")
    assert bench.status("timing_set") == "held"
    hold = bench.view("timing_set")["holds"][0]
    assert hold["sentence"] == "Cam end play is over. Until it is in, “Timing set” waits."
    assert hold["fits"][0]["says"] == "over by 31.0"
    assert "Limit 4.0–10.0" in hold["fits"][0]["limit"]["says"]


def test_ticking_the_timing_set_behind_a_closed_gate_opens_nothing():
    bench = at_cam_end_play("41.0")
    bench.marek.does("timing_set")
    assert bench.status("timing_set") == "held"
    assert bench.status("retainer") == "waiting"
    assert any("was finished while its gate is closed" in says for says in bench.finds("gates"))


def test_the_short_block_ends_with_the_retainer():
    bench = at_cam_end_play("6.0")
    bench.marek.does("timing_set")
    bench.marek.does("retainer")
    overview = bench.overview()
    assert overview["next"] is None
    assert {p["status"] for p in overview["phases"]} == {"done"}
    assert bench.ask("review")["findings"] == []


def test_the_makers_sheet_beats_the_shops_and_the_shops_beats_the_table():
    bench = at_cam_end_play("10.0")
    assert bench.view("cam_end_play")["fits"][0]["limit"]["authority"] == "table"
    limit = {"limit": "cam_end_play", "unit": "thou", "aim": None}
    bench.marek.write("limit.set", authority="shop", low="2.0", high="9.0", source="race sheet", **limit)
    assert bench.view("cam_end_play")["fits"][0]["limit"]["says"] == "Limit 2.0–9.0 from the shop's sheet (race sheet)."
    bench.marek.write("limit.set", authority="maker", low="8.0", high="12.0", source="cam sheet", **limit)
    fit = bench.view("cam_end_play")["fits"][0]
    assert (fit["state"], fit["limit"]["authority"]) == ("in", "maker")


def test_a_concession_lets_this_figure_pass_and_no_other():
    bench = at_cam_end_play("12.0")
    draft = bench.view("timing_set")["holds"][0]["concede"][0]
    bench.marek.write("concession", **draft["body"], reason="one event only", granted_by="Tomasz")
    assert bench.status("timing_set") == "ready"
    assert "not independently reviewed" in bench.finds("concessions")[0]
    bench.marek.reads("cam_float", "13.0", "thou")
    assert bench.status("timing_set") == "held"


def test_an_apprentices_concession_opens_nothing_until_somebody_reviews_it():
    bench = at_cam_end_play("12.0")
    draft = bench.view("timing_set")["holds"][0]["concede"][0]
    asked = bench.juno.write("concession", **draft["body"], reason="late", granted_by="Juno")
    assert bench.status("timing_set") == "held"
    bench.tomasz.write("concession.countersigned", event=asked, note="one event only")
    assert bench.status("timing_set") == "ready"
    assert bench.overview()["concessions"][0]["says"] == "reviewed by Tomasz"


def test_nobody_reviews_his_own_concession():
    bench = at_cam_end_play("12.0")
    draft = bench.view("timing_set")["holds"][0]["concede"][0]
    asked = bench.marek.write("concession", **draft["body"], reason="late", granted_by="Marek")
    bench.marek.write("concession.countersigned", event=asked, note="")
    assert bench.overview()["concessions"][0]["reviewed_by"] == ""
    assert any("Nobody reviews his own" in says for says in bench.finds("readings_kept"))


def test_a_concession_without_a_reason_opens_nothing():
    bench = at_cam_end_play("12.0")
    draft = bench.view("timing_set")["holds"][0]["concede"][0]
    bench.marek.write("concession", **draft["body"], reason=" ", granted_by="Tomasz")
    assert bench.status("timing_set") == "held"


def test_a_step_that_has_read_a_misfit_says_so_and_is_where_to_go():
    bench = measured([*BORES[:4], "2.4515"])
    overview = bench.overview()
    why = next(s["why"] for s in overview["steps"] if s["id"] == "main_bores")
    assert why == ["Main clearance is over at main 5. See here what would put it right."]
    assert overview["next"] == "main_bores"
