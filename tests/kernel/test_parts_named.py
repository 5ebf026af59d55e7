"""Parts with a mark, a past and a place; rings that were filed; passes by angle; the item usually forgotten."""

from __future__ import annotations

import pytest

from kernel.fold import Build

from .bench import Bench
from .small_engine import PROCEDURE

NOTED = {"mark": "A7", "state": "used", "cost": {"text": "41.50", "unit": "EUR"}, "condition": "light scuff", "belongs": None}


@pytest.fixture
def bench() -> Bench:
    return Bench(PROCEDURE)


def part(bench: Bench, name: str) -> dict:
    view = bench.ask("parts")
    return next(p for place in view["places"] for p in place["parts"] if p["id"] == name)


def test_a_part_that_came_with_its_place_has_no_name_until_it_is_given_one(bench):
    assert (part(bench, "piston@1")["named"], part(bench, "piston@1")["mark"]) == (False, "")
    bench.marek.write("part.noted", part="piston@1", **NOTED)
    seen = part(bench, "piston@1")
    assert (seen["named"], seen["mark"], seen["state"], seen["condition"], seen["cost"]) == (True, "A7", "used", "light scuff", "41.50 EUR")


def test_a_part_may_be_added_with_all_that_is_known_of_it(bench):
    size = {"text": "3.9970", "unit": "in"}
    more = {**NOTED, "belongs": {"slot": "piston", "station": "2"}}
    bench.marek.write("part.added", part="p9", kind="piston", title="piston 9", size=size, **more)
    seen = bench.ask("parts")["loose"][0]
    assert (seen["mark"], seen["size"], seen["belongs_title"]) == ("A7", "3.9970 in", "piston, cylinder 2")


def test_costs_add_up_currency_by_currency(bench):
    bench.marek.write("part.noted", part="piston@1", **NOTED)
    bench.marek.write("part.noted", part="piston@2", **{**NOTED, "cost": {"text": "8.5", "unit": "EUR"}})
    bench.marek.write("part.noted", part="gasket", **{**NOTED, "cost": {"text": "12", "unit": "CHF"}})
    assert bench.ask("parts")["cost"] == ["12.00 CHF", "50.00 EUR"]


def test_a_cost_that_is_no_number_is_told_and_changes_nothing(bench):
    bench.marek.write("part.noted", part="piston@1", **{**NOTED, "cost": {"text": "dear", "unit": "EUR"}})
    assert not part(bench, "piston@1")["named"]
    assert bench.finds("readings_kept")


def test_piston_to_wall_needs_a_piston_that_was_measured(bench):
    bench.marek.reads("bore@1", "4.0000")
    bench.marek.write("part.added", part="p9", kind="piston", title="piston 9", size={"text": "3.9970", "unit": "in"})
    bench.marek.write("parts.put", puts=[{"slot": "piston", "station": "1", "parts": ["p9"]}], why="fitted")
    seen = next(f for f in bench.view("bores")["fits"] if f["fit"] == "wall" and f["station"] == "1")
    assert (seen["value"], seen["word"], seen["working"]) == ("3.0", "In", "4.0000 − 3.9970")


def test_a_filed_ring_must_be_read_again_and_its_turns_are_kept(bench):
    bench.marek.reads("gap@1", "0.0150")
    bench.marek.write("ring.filed", point="gap", station="1", turns="6.5")
    entry = next(e for e in bench.view("bores")["entries"] if e["spot"] == "gap@1")
    assert entry["state"] == "stale"
    bench.marek.reads("gap@1", "0.0180")
    build = Build(PROCEDURE, bench.events)
    assert [f["turns"] for f in build.filed["gap@1"]] == [6500]
    entry = next(e for e in bench.view("bores")["entries"] if e["spot"] == "gap@1")
    assert entry["state"] == "made"


def test_a_pass_by_angle_says_so(bench):
    for number in (1, 2):
        for bolt in ("1", "2"):
            bench.marek.write("torque.pulled", step="head", **{"pass": number}, fastener=bolt, again=False)
    plan = bench.view("head")["torque"]
    assert (plan["pass"], plan["torque"], plan["other"], plan["by_angle"]) == (3, "90° further", "from where the last pass ended", True)


def test_the_item_usually_forgotten_is_marked(bench):
    assert [e["salient"] for e in bench.view("head")["entries"]] == [False, True]


def test_a_part_that_came_with_its_place_is_not_loose_because_it_was_measured(bench):
    bench.marek.write("part.measured", part="gasket", text="0.0400", unit="in")
    assert bench.ask("parts")["loose"] == []
    bench.marek.write("part.added", part="g2", kind="gasket", title="thin gasket", size={"text": "0.0270", "unit": "in"})
    bench.marek.write("parts.put", puts=[{"slot": "gasket", "station": "", "parts": ["g2"]}], why="thinner")
    assert [p["id"] for p in bench.ask("parts")["loose"]] == ["gasket"]


def test_every_place_says_where_the_work_comes_to_it(bench):
    phases = {p["title"] for p in PROCEDURE["phases"]}
    used = {place["slot"]: place["phase"] for place in bench.ask("parts")["places"]}
    assert set(used.values()) <= phases | {""} and used["piston"] in phases
    step = next(s for s in PROCEDURE["steps"] if "piston" in s["may_measure"] or any("piston" == c.get("slot") for c in s["corrects"]))
    assert used["piston"] == next(p["title"] for p in PROCEDURE["phases"] if p["id"] == step["phase"])
