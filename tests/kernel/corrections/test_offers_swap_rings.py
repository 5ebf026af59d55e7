"""Gaskets from the shelf, and filing plans."""

from __future__ import annotations

from .every_method import MethodBench, after


def chambers(volume: str = "64", gasket: str = "0.060") -> MethodBench:
    bench = MethodBench()
    bench.reads("bore", *["4.0300"] * 4)
    bench.reads("deck", *["9.0000"] * 4)
    bench.reads("piston_height", *["9.0000"] * 4)
    bench.measures(gasket=gasket)
    bench.reads("stroke", "3.48")
    bench.reads("chamber", *[volume] * 4, unit="cm3")
    return bench


def swaps(bench: MethodBench) -> list[dict]:
    return [offer for offer in bench.offers("chambers") if offer["kind"] in ("swap", "none")]


def test_a_gasket_brings_compression_to_its_aim_without_losing_squish():
    bench = chambers("67.2")
    bench.shelves("gasket", thin="0.027", middle="0.041", thick="0.045")
    best = bench.offers("chambers")[0]
    assert (best["kind"], best["cures"]) == ("swap", True)
    assert best["draft"]["body"]["puts"] == [{"slot": "gasket", "station": "", "parts": ["middle"]}]
    assert "41.0" in best["says"], "what squish would read is said"
    foretold = after(best)["1"]
    bench.does_it(best)
    assert swaps(bench) == []
    fits = {f["fit"]: f["value"] for f in bench.view("chambers")["fits"] if f["station"] == "1"}
    assert fits["compression"] == foretold and fits["squish"] == "41.0"


def test_a_gasket_that_loses_squish_is_not_offered_and_the_one_to_order_is_said():
    bench = chambers("72", "0.040")
    bench.shelves("gasket", thin="0.027")
    (only,) = swaps(bench)
    assert (only["kind"], only["draft"], only["cures"]) == ("none", None, False)
    assert "No size of head gasket" in only["says"], "10.3 :1 wants less than the 35 thou that squish needs"
    bench = chambers("69.5", "0.045")
    (only,) = swaps(bench)
    size = only["says"].split("head gasket ")[1].split(" in")[0]
    assert 0.035 <= float(size) <= 0.045
    bench.shelves("gasket", ordered=size)
    assert bench.offers("chambers")[0]["cures"]


def test_the_part_that_came_with_the_slot_is_not_on_the_shelf():
    """The gasket in the engine and the one on the bench are two: nothing is offered twice."""
    bench = chambers("72", "0.040")
    assert swaps(bench)[0]["draft"] is None


def test_what_becomes_of_an_unread_fit_nobody_knows_and_that_is_said():
    bench = chambers("67.2")
    bench.shelves("gasket", middle="0.041")
    bench.procedure = {**bench.procedure, "steps": [_also_gap(step) for step in bench.procedure["steps"]]}
    best = next(offer for offer in bench.offers("chambers") if offer["kind"] == "swap")
    assert "Ring gap is not read" in best["says"] and not best["cures"] and best["draft"]


def _also_gap(step: dict) -> dict:
    """The step with a fit beside it that this bench has not read."""
    if step["id"] != "chambers":
        return step
    return {**step, "corrects": [{**one, "also": ["squish", "ring_gap"]} if one["method"] == "swap" else one for one in step["corrects"]]}


def gaps(*texts: str) -> MethodBench:
    bench = MethodBench()
    bench.reads("gap", *texts)
    return bench


def test_a_first_cut_then_turns_from_what_it_gained():
    bench = gaps("0.0100", "0.0120", "0.0180", "0.0190")
    first = bench.offers("gaps")[0]
    assert first["title"] == "Cylinder 1: file 3 turns" and first["draft"]["body"] == {"point": "gap", "station": "1", "turns": "3"}
    bench.does_it(first)
    assert bench.offers("gaps")[0]["title"].startswith("Cylinder 2"), "the ring just filed waits for its reading"
    bench.reads("gap", "0.0112", "", "", "")
    second = bench.offers("gaps")[0]
    assert second["title"] == "Cylinder 1: file 17 turns" and after(second)["1"] == "18.0"
    assert "2: 15 turns" in second["says"]
    bench.does_it(second)
    bench.reads("gap", "0.0180", "", "", "")
    assert bench.offers("gaps")[0]["title"].startswith("Cylinder 2")


def test_the_largest_gain_seen_at_any_ring_sets_the_next_cut():
    bench = gaps("0.0100", "0.0100", "0.0180", "0.0190")
    for station, turns, text in (("1", "2", "0.0104"), ("2", "2", "0.0116")):
        bench.marek.write("ring.filed", point="gap", station=station, turns=turns)
        bench.marek.reads(f"gap@{station}", text)
    best = bench.offers("gaps")[0]
    assert best["draft"]["body"]["turns"] == "9", "7.6 thou to go at 0.8 a turn"
    assert best["rows"][0]["after_raw"] <= 18 * 25400


def test_turns_over_several_cuts_before_a_reading_count_together_and_struck_ones_do_not():
    bench = gaps("0.0100", "0.0180", "0.0180", "0.0190")
    bench.marek.write("ring.filed", point="gap", station="1", turns="2")
    bench.marek.write("ring.filed", point="gap", station="1", turns="2")
    wrong = bench.marek.write("ring.filed", point="gap", station="1", turns="40")
    bench.marek.write("strike", event=wrong, why="mistyped")
    bench.marek.reads("gap@1", "0.0120")
    assert bench.offers("gaps")[0]["draft"]["body"]["turns"] == "12", "0.5 a turn, 6 to go"


def test_nearer_than_a_turn_goes_by_hand():
    bench = gaps("0.0100", "0.0180", "0.0180", "0.0190")
    bench.marek.write("ring.filed", point="gap", station="1", turns="2")
    bench.marek.reads("gap@1", "0.0166")
    only = bench.offers("gaps")[0]
    assert "less than a turn" in only["title"] and only["draft"] is None


def test_a_gap_too_large_wants_another_ring():
    only = gaps("0.0180", "0.0220", "0.0180", "0.0190").offers("gaps")[0]
    assert (only["kind"], only["draft"]) == ("none", None) and "cylinder 2" in only["says"]


def test_a_german_builder_reads_the_plan_in_german():
    german = {"length": "mm", "torque": "N.m", "language": "de"}
    plan = gaps("0.0100", "0.0180", "0.0180", "0.0190").offers("gaps", units=german)[0]
    assert plan["title"] == "Cylinder 1: 3 Umdrehungen feilen" and plan["says"].startswith("Noch 0.203 mm.")
    assert plan["draft"]["body"]["turns"] == "3"
