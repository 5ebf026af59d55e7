"""The verdict shown the moment a reading is kept is the one that stands when the step is looked at anew."""
from __future__ import annotations

import pytest

from kernel.door import answer

from .bench import NOW, PEOPLE, THOU, Bench
from .test_corrections_at_the_bench import read_mains

BORE = {"point": "main_bore", "station": "3", "unit": "in", "tool": ""}


def weigh(bench: Bench, text: str, step: str = "main_bores") -> list[dict]:
    return bench.ask("weigh", draft={"type": "reading", "body": BORE | {"text": text}}, step=step)["fits"]


@pytest.mark.parametrize("text", ["2.4505", "2.4497", "2.4513", "2.450"])
def test_it_is_what_the_step_says_after_the_reading(text):
    bench = read_mains("2.5", "2.5", "2.5", "2.5", "2.5")
    foretold = weigh(bench, text)
    bench.marek.reads("main_bore@3", text)
    after = {(f["fit"], f["station"]): f for f in bench.view("main_bores")["fits"]}
    assert {f["fit"] for f in foretold} == {"main_clearance", "main_spread"}
    assert foretold == [after[f["fit"], f["station"]] for f in foretold]


def test_it_leaves_the_build_as_it_was():
    bench = read_mains("2.5", "2.5", "2.5", "2.5", "2.5")
    answer({"op": "open", "build": "b-boat", "procedure": bench.procedure, "events": bench.events, "people": PEOPLE})
    look = {"op": "step", "build": "b-boat", "step": "main_bores", "units": THOU, "now": NOW}
    before = answer(look)
    draft = {"type": "reading", "body": BORE | {"text": "2.4513"}}
    foretold = answer({"op": "weigh", "build": "b-boat", "draft": draft, "step": "main_bores", "units": THOU, "now": NOW})["fits"]
    assert [f["state"] for f in foretold if f["fit"] == "main_clearance"] == ["over"]
    assert answer(look) == before


def test_a_first_reading_at_a_spot_leaves_it_unread():
    bench = Bench()
    before = bench.view("main_bores")
    assert [f["state"] for f in weigh(bench, "2.4505") if f["fit"] == "main_clearance"] == ["not_read"]
    assert bench.view("main_bores") == before


def test_nothing_is_foretold_for_a_number_that_is_none():
    draft = {"type": "reading", "body": BORE | {"text": "2..4"}}
    bench = Bench()
    asked = {"op": "weigh", "procedure": bench.procedure, "events": bench.events, "draft": draft, "step": "main_bores", "units": THOU, "now": NOW}
    found = answer(asked)
    assert found["error"] and "fits" not in found
