"""The size of a part that a later gate rests on is asked for, once nothing else of its step is left to do."""

from __future__ import annotations

import pytest

from .bench import Bench
from .small_engine import PROCEDURE


@pytest.fixture
def bench() -> Bench:
    made = Bench(PROCEDURE)
    made.marek.write("choice.made", choice="rod_material", option="steel")
    return made


def asked(bench: Bench, step: str) -> str:
    view = bench.view(step)
    return "" if view["at"] is None else view["entries"][view["at"]]["spot"]


def test_the_gasket_that_the_squish_rests_on_is_asked_for_last(bench):
    for spot in ("bore@1", "bore@2"):
        bench.marek.reads(spot, "4.0000")
    for spot in ("gap@1", "gap@2"):
        bench.marek.reads(spot, "0.0200")
    assert asked(bench, "decks") == "deck@1"
    bench.marek.reads("deck@1", "0.0050")
    bench.marek.reads("deck@2", "0.0050")
    assert asked(bench, "decks") == "gasket"
    assert bench.view("head")["holds"][0]["step"] == "decks", "so the way from the hold leads to what is wanted"
    bench.marek.write("part.measured", part="gasket", text="0.0400", unit="in")
    assert asked(bench, "decks") == ""
    assert bench.view("head")["holds"] == []


def test_a_size_that_no_gate_rests_on_is_left_to_the_builder(bench):
    for spot, text in (("bore@1", "4.0000"), ("bore@2", "4.0000"), ("gap@1", "0.0200"), ("gap@2", "0.0200")):
        bench.marek.reads(spot, text)
    assert asked(bench, "bores") == ""
    assert any(entry["kind"] == "measure" and entry["state"] == "open" for entry in bench.view("bores")["entries"])
