"""What the bench can put right in the twin-cam four and the single: the offers that their steps make, with invented parts."""

from __future__ import annotations

from pathlib import Path

import pytest
from catalogue import library
from kernel.view.step_view import step_view

from . import readings_four, readings_single
from .whole_build import Builder, Texts

FOUR = library.compile_file(Path(library.PROCEDURES) / "twin-cam-four.yaml")
SINGLE = library.compile_file(Path(library.PROCEDURES) / "single-four.yaml")
DATA = {"twin-cam-four": (FOUR, readings_four), "single-four": (SINGLE, readings_single)}
Part = tuple[str, str, str]  # id, kind, size with its unit


def at(engine: str, step: str, readings: Texts, shelf: tuple[Part, ...] = (), sizes: Texts | None = None) -> Builder:
    """The engine built up to and with this step, with these readings and sizes in place of the good ones."""
    procedure, data = DATA[engine]
    builder = Builder(procedure, data.CHOICES, {**data.READINGS, **readings}, {**data.SIZES, **(sizes or {})})
    for part, kind, size in shelf:
        text, unit = size.split(" ")
        builder.bench.marek.write("part.added", part=part, kind=kind, title=part, size={"text": text, "unit": unit})
    builder.works(until=step)
    return builder


def first_offer(builder: Builder, step: str) -> dict:
    return step_view(builder.lens(), step)["offers"][0]


REST = ["0.20 mm"] * 6
HEIGHTS = ["35.9 mm"] * 7

CURED = [
    ("twin-cam-four", "deck_heights", {"deck_depth": "0.30 mm"}, (("thin", "head_gasket", "0.70 mm"),), "swap", "squish"),
    ("twin-cam-four", "springs", {"intake_height": ["36.9 mm", *HEIGHTS]}, (("a", "spring_shim", "0.5 mm"), ("b", "spring_shim", "0.4 mm")),
     "springs", "installed_height_intake"),
    ("twin-cam-four", "cam_timing", {"intake_opens": "22 deg", "intake_closes": "58 deg"}, (("early", "cam_key", "-3 deg"),), "swap", "intake_centreline"),
    ("twin-cam-four", "lash_again", {"intake_gap_after": ["0.10 mm", "0.20 mm", *REST]}, (("thin", "bucket_shim", "2.40 mm"),),
     "buckets", "lash_intake_after"),
    ("single-four", "big_end", {"rod_eye": "44.002 mm"}, (("thin", "rollers", "4.994 mm"),), "swap", "rod_radial_play"),
    ("single-four", "cases_tried", {"crank_float": "0.60 mm"}, (("a", "crank_shim", "0.30 mm"), ("b", "crank_shim", "0.10 mm")), "shims", "crank_end_play"),
    ("single-four", "deck_heights", {"deck_depth": "-0.60 mm"}, (("thick", "base_gasket", "0.70 mm"),), "swap", "squish"),
    ("single-four", "cam_timing", {"intake_opens": "22 deg", "intake_closes": "58 deg", "exhaust_opens": "54 deg", "exhaust_closes": "26 deg"},
     (("early", "cam_key", "-2 deg"),), "swap", "intake_centreline"),
]


@pytest.mark.parametrize(("engine", "step", "readings", "shelf", "method", "fit"), CURED, ids=[f"{row[0]}-{row[1]}" for row in CURED])
def test_parts_on_the_shelf_that_cure_are_offered_and_do_cure(engine, step, readings, shelf, method, fit):
    builder = at(engine, step, readings, shelf)
    assert "in" not in {row["state"] for row in builder.fits(fit)[:1]}
    offer = first_offer(builder, step)
    assert (offer["kind"], offer["cures"]) == (method, True)
    draft = offer["draft"]
    assert draft["type"] == "parts.put" and {part for put in draft["body"]["puts"] for part in put["parts"]} & {part for part, _, _ in shelf}


def test_two_shims_that_sit_under_the_wrong_valves_change_places_with_nothing_to_buy():
    gaps = {"intake_gap": ["0.10 mm", "0.30 mm", *REST]}
    shims = {"bucket_shim_intake": ["2.60 mm", "2.50 mm", *["2.55 mm"] * 6]}
    builder = at("twin-cam-four", "lash", gaps, sizes=shims)
    offer = first_offer(builder, "lash")
    assert offer["cures"]
    moved = {(put["slot"], put["station"]): put["parts"] for put in offer["draft"]["body"]["puts"]}
    assert moved == {("bucket_shim_intake", "I1"): ["bucket_shim_intake@I2"], ("bucket_shim_intake", "I2"): ["bucket_shim_intake@I1"]}


def test_each_lash_that_is_out_is_named_with_its_own_valves():
    gaps = {"intake_gap": ["0.10 mm", "0.20 mm", *REST], "exhaust_gap": ["0.60 mm", *["0.25 mm"] * 7]}
    said = at("twin-cam-four", "lash", gaps).bench.view("lash")["why"]
    assert [line.split(" at ")[0] for line in said] == ["Intake lash is under", "Exhaust lash is over"]
    assert "I1" in said[0] and "E1" not in said[0] and "E1" in said[1]


def test_a_tight_piston_is_answered_with_honing_and_by_how_much():
    pistons = {"piston": ["85.970 mm", "85.941 mm", "85.939 mm", "85.940 mm"]}
    offer = first_offer(at("twin-cam-four", "bores", {}, sizes=pistons), "bores")
    assert offer["kind"] == "cut" and offer["cures"]
    assert "86.030 mm" in offer["says"]  # 0.7 thousandths of a bore of 86 mm: 0.060 mm over the piston


def test_a_small_ring_gap_is_answered_with_a_first_cut():
    offer = first_offer(at("twin-cam-four", "ring_gaps", {"top_gap": ["0.30 mm", *["0.41 mm"] * 3]}), "ring_gaps")
    assert offer["kind"] == "rings" and "ylinder 1" in offer["title"]


def test_a_rocker_screw_is_turned_by_the_part_of_a_turn_that_is_missing():
    """0.12 mm too much on a pitch of 0.75 mm: 0.16 of a turn, 58 degrees, said to the nearest sixth or so."""
    offer = first_offer(at("single-four", "lash", {"intake_gap": "0.20 mm"}), "lash")
    assert offer["kind"] == "turns" and offer["cures"] and "60" in offer["title"]


def test_shells_that_are_uneven_get_a_trial():
    bores = {"rod_bore": ["48.049 mm", "48.065 mm", "48.048 mm", "48.030 mm"]}
    offer = first_offer(at("twin-cam-four", "rod_bores", bores), "rod_bores")
    assert offer["kind"] == "trial" and {put["station"] for put in offer["draft"]["body"]["puts"]} == {"2", "4"}


def test_where_nothing_on_hand_cures_it_the_offer_says_so():
    offer = first_offer(at("single-four", "big_end", {"rod_eye": "44.002 mm"}), "big_end")
    assert offer["kind"] == "none" and not offer["cures"] and offer["says"]
