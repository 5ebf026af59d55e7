"""Limits that depend on what was chosen and on the measured size; who sets them; figures with part sizes in them."""

from __future__ import annotations

import pytest

from kernel.fits import figure, figure_if
from kernel.fold import Build
from kernel.order import closed_gates

from .bench import METRIC, Bench
from .small_engine import PROCEDURE


@pytest.fixture
def bench() -> Bench:
    return Bench(PROCEDURE)


def fit(bench: Bench, step: str, name: str, station: str = "", **more) -> dict:
    return next(f for f in bench.view(step, **more)["fits"] if f["fit"] == name and f["station"] == station)


def reads_all(bench: Bench) -> None:
    for spot, text in {"bore@1": "4.0000", "bore@2": "4.0300", "gap@1": "0.0190", "gap@2": "0.0170"}.items():
        bench.marek.reads(spot, text)


def test_a_step_that_asks_is_open_until_it_is_answered(bench):
    entry = bench.view("facts")["entries"][0]
    assert (entry["kind"], entry["state"], [o["id"] for o in entry["options"]]) == ("choice", "open", ["steel", "aluminium"])
    bench.marek.write("choice.made", choice="rod_material", option="aluminium")
    entry = bench.view("facts")["entries"][0]
    assert (entry["state"], entry["chosen"], entry["shown"], bench.status("facts")) == ("made", "aluminium", "aluminium", "done")


def test_a_choice_that_is_not_offered_changes_nothing_and_is_told(bench):
    bench.marek.write("choice.made", choice="rod_material", option="wood")
    assert bench.status("facts") == "ready"
    assert any("“wood”" in said for said in bench.finds("readings_kept"))


def test_a_limit_per_inch_grows_with_the_bore(bench):
    reads_all(bench)
    one, two = fit(bench, "bores", "ring_gap", "1"), fit(bench, "bores", "ring_gap", "2")
    assert (one["limit"]["low"], one["limit"]["high"], one["word"]) == ("18.0", "22.0", "In")
    assert (two["limit"]["low"], two["limit"]["high"], two["word"], two["says"]) == ("18.1", "22.2", "Under", "under by 1.1")


def test_what_a_duty_adds_comes_on_top():
    bench = Bench(PROCEDURE, duty="boosted")
    reads_all(bench)
    assert fit(bench, "bores", "ring_gap", "1")["limit"]["low"] == "25.0"  # 6.0 per inch of 4 in, and 1 more


def test_while_the_size_is_not_read_there_is_no_limit_and_it_says_what_it_waits_for(bench):
    bench.marek.reads("gap@1", "0.0190")
    seen = fit(bench, "bores", "ring_gap", "1")
    assert (seen["state"], seen["says"]) == ("no_limit", "its limit waits for bore")


def test_the_makers_sheet_beats_the_table(bench):
    reads_all(bench)
    bench.marek.write("limit.set", limit="ring_gap", authority="maker", low="0.0160", high="0.0180", aim=None, unit="in", source="ring sheet")
    seen = fit(bench, "bores", "ring_gap", "2")
    assert (seen["word"], seen["limit"]["authority"]) == ("In", "maker")
    assert "the maker's sheet (ring sheet)" in seen["limit"]["says"]


def squish(bench: Bench) -> dict:
    return fit(bench, "decks", "squish", "1")


def with_gasket(bench: Bench) -> None:
    bench.marek.write("part.added", part="g40", kind="gasket", title="gasket", size={"text": "0.0400", "unit": "in"})
    bench.marek.write("parts.put", puts=[{"slot": "gasket", "station": "", "parts": ["g40"]}], why="fitted")


def test_squish_is_deck_plus_gasket_and_its_limit_is_the_rods(bench):
    bench.marek.reads("deck@1", "0.0050")
    assert squish(bench)["state"] == "not_read", "no gasket yet"
    with_gasket(bench)
    assert squish(bench)["state"] == "no_limit", "no rods chosen yet"
    bench.marek.write("choice.made", choice="rod_material", option="steel")
    assert (squish(bench)["word"], squish(bench)["value"], squish(bench)["working"]) == ("Close", "45.0", "5.0 + 40.0")
    bench.marek.write("choice.made", choice="rod_material", option="aluminium")
    assert squish(bench)["says"] == "under by 10.0"


def test_a_gate_without_a_limit_stays_closed(bench):
    """Nobody has said what the rods are made of: the head must not go on for want of a limit."""
    with_gasket(bench)
    bench.marek.does("decks", deck=["0.0010", "0.0010"])
    build = Build(PROCEDURE, bench.events)
    assert [(f["state"], f["open"]) for f in closed_gates(build, build.steps["head"])] == [("no_limit", False)] * 2
    bench.marek.write("choice.made", choice="rod_material", option="steel")
    build = Build(PROCEDURE, bench.events)
    assert closed_gates(build, build.steps["head"]) == []


def test_a_figure_with_nothing_to_be_held_against_is_only_shown(bench):
    bench.marek.does("decks", deck=["0.0010", "0.0030"])
    seen = fit(bench, "decks", "deepest")
    assert (seen["word"], seen["value"], seen["says"]) == ("Read", "3.0", "")


def test_what_would_be_without_writing_anything_down(bench):
    bench.marek.reads("deck@1", "0.0050")
    with_gasket(bench)
    build = Build(PROCEDURE, bench.events)
    assert figure(build, "squish", "1")["value"] == 1_143_000
    assert figure_if(build, "squish", "1", {"size:gasket": 1_270_000})["value"] == 1_397_000
    assert figure_if(build, "squish", "1", {"deck@1": 0})["value"] == 1_016_000
    assert figure(build, "squish", "1")["value"] == 1_143_000


def test_millimetre_people_read_the_same_limits_in_millimetres(bench):
    reads_all(bench)
    assert fit(bench, "bores", "ring_gap", "1", units=METRIC)["limit"]["low"] == "0.457"
