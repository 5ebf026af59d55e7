"""Figures of the whole pushrod V8 against outside values and trade rules, and what the bench offers when they are out."""

from __future__ import annotations

import math

import pytest
from catalogue import library

from .readings_v8 import CHOICES, READINGS, SIZES
from .whole_build import Builder

V8 = library.compile_file(library.PROCEDURES / "pushrod-v8-whole.yaml")
IN, CM3, DEG, ONE = 25_400_000, 1_000_000, 1_000_000, 1_000_000


def builder(until: str = "", sizes=None, choices=None, **readings) -> Builder:
    made = Builder(V8, CHOICES | (choices or {}), READINGS | readings, SIZES | (sizes or {}))
    made.works(until)
    return made


def figure(made: Builder, fit: str) -> int:
    """The figure at the first station."""
    return made.fits(fit)[0]["value"]


def offers(made: Builder, step: str) -> dict:
    """The first offer of each kind at a step."""
    found: dict = {}
    for offer in made.bench.view(step)["offers"]:
        found.setdefault(offer["kind"], offer)
    return found


def on_the_shelf(made: Builder, part: str, kind: str, text: str, unit: str) -> None:
    made.bench.marek.write("part.added", part=part, kind=kind, title=part, size={"text": text, "unit": unit})


def bores(text: str) -> dict:
    return {point: text for point in V8["points"] if point.startswith("bore_")}


def test_bore_4_030_and_stroke_3_750_make_383_cubic_inches():
    # common practice, no published source: 4.030 x 3.750 x 8 is "a 383"
    inches = figure(builder("chambers", **bores("4.0300 in")), "displacement") / (16.387064 * CM3)
    assert inches == pytest.approx(383, abs=0.4)
    assert inches == pytest.approx(8 * math.pi / 4 * 4.03**2 * 3.75, rel=1e-6)


def test_lift_0_533_at_the_valve_is_0_3553_at_the_lobe():
    # common practice, no published source: lobe lift times rocker ratio, no lash
    made = builder("cam_degreed", lobe_intake="0.3553 in", rocker_stated="1.50 :1", lash_intake_stated="0 in")
    assert figure(made, "intake_valve_lift") / IN == pytest.approx(0.533, abs=0.0001)
    assert 0.533 / 1.5 == pytest.approx(figure(made, "intake_lobe_lift") / IN, abs=0.0001)


def test_pistons_five_thou_below_deck_on_a_gasket_of_39():
    made = builder("piston_heights")
    assert figure(made, "deck_clearance") == round(0.005 * IN)
    assert figure(made, "squish") == round(0.044 * IN)


def test_centreline_102_is_straight_up():
    # common practice, no published source: straight up is an intake centreline equal to the lobe separation
    made = builder("cam_degreed")
    assert [figure(made, fit) for fit in ("intake_centreline", "exhaust_centreline", "lobe_separation")] == [102 * DEG] * 3


def test_timing_figures_from_four_angles():
    # duration = opens + 180 + closes and so on, recomputed: 10/40/50/10 -> 230, 240, 105, 110, 107.5, overlap 20
    made = builder("cam_degreed", intake_opens="10 deg", intake_closes="40 deg", exhaust_opens="50 deg", exhaust_closes="10 deg")
    fits = ("intake_duration", "exhaust_duration", "intake_centreline", "exhaust_centreline", "lobe_separation", "overlap")
    assert [figure(made, fit) / DEG for fit in fits] == [230, 240, 105, 110, 107.5, 20]


def test_overlap_of_the_army_manual():
    # US Army TM 9-8000: opens 28 before, closes 45 after TDC = 73 degrees
    assert figure(builder("cam_degreed", intake_opens="28 deg", exhaust_closes="45 deg"), "overlap") == 73 * DEG


def test_compression_ratio_of_the_textbook():
    # combustion-engine textbook, example 1.1: bore 7.001 cm, stroke 6.364 cm, 245 cm3 swept, 27.22 cm3 left -> 10.00
    made = builder("chambers", {"head_gaskets": "0 in"}, **bores("70.01 mm"), stroke="63.64 mm", chamber="27.22 cm3", piston_volume="0 cm3",
                   crown_front="0 in", crown_rear="0 in")  # fmt: skip
    assert figure(made, "clearance_volume") == 27.22 * CM3
    assert figure(made, "compression_ratio") / ONE == pytest.approx(10.00, abs=0.001)


def test_the_gasket_counts_with_its_own_bore():
    made = builder("chambers")
    cc = 64.0 + 5.0 + math.pi / 4 * (4.1**2 * 0.039 + 4.0301**2 * 0.005) * 16.387064
    assert figure(made, "clearance_volume") / CM3 == pytest.approx(cc, abs=0.01)


@pytest.mark.parametrize(("closes", "expected"), [("66 deg", 8.299), ("0 deg", 10.5)])
def test_compression_from_intake_closing(closes, expected):
    # recomputed from the slider-crank, a regression value: 10.5 static, 3.48 in stroke, 5.7 in rod; at BDC it is the static ratio
    made = builder("chambers", stroke="3.48 in", rod_length="5.7 in", intake_seat_closes=closes)
    static, dynamic = figure(made, "compression_ratio") / ONE, figure(made, "dynamic_ratio") / ONE
    assert 1 + (dynamic - 1) / (static - 1) * 9.5 == pytest.approx(expected, abs=0.001)


def test_an_aluminium_block_opens_the_mains():
    # recomputed: 2.5 in journal, 356 housing, 4340 crank, 80 K warmer -> 0.00184 in more
    made = builder("main_bores", choices={"block_material": "aluminium_356"}, main_bore="2.5025 in",
                   **{point: "2.5000 in" for point in V8["points"] if point.startswith(("main_front", "main_rear"))})  # fmt: skip
    assert (figure(made, "main_clearance_hot") - figure(made, "main_clearance")) / IN == pytest.approx(0.00184, abs=0.00001)


def test_spring_rate_of_the_textbook():
    # machine-design textbook, example 10.4: 150 N at 35 mm, 300 N at 30 mm -> 30 N/mm
    made = builder("springs_tested", spring_test_closed="35 mm", spring_test_open="30 mm", load_closed_intake="150 N", load_open_intake="300 N")
    assert figure(made, "spring_rate_intake") == 30_000_000


def test_leak_down_of_the_aviation_circular():
    # FAA AC 43.13-1B 8-14: 80 psi supplied, 60 held = 25 %
    assert figure(builder(leak_supply="80 psi", leak_held="60 psi"), "leak_down") == 250_000


def test_bobweight_is_the_turning_weight_half_of_the_rest_and_oil():
    made = builder("weighed", rod_big="460 g", rod_small="170 g", piston_weight="430 g")
    assert figure(made, "bobweight") == (2 * (460 + 42) + (430 + 115 + 38 + 3 + 170) + 4) * 1_000_000


def test_limits_follow_material_size_and_duty():
    forged = builder("pistons_measured").fits("piston_to_wall")[0]["limit"]
    cast = builder("pistons_measured", choices={"piston_material": "cast"}).fits("piston_to_wall")[0]["limit"]
    assert (forged["low"], cast["low"]) == (round(0.0006 * 4.03 * IN), round(0.0004 * 4.03 * IN))
    steel, soft = (builder("piston_heights", choices={"rod_material": m}).fits("squish")[0]["limit"]["low"] for m in ("steel", "aluminium"))
    assert (steel, soft) == (round(0.035 * IN), round(0.055 * IN))
    assert builder("main_bores").fits("main_clearance")[0]["limit"]["aim"] == round(0.001 * 2.449 * IN)


def test_a_gasket_from_the_shelf_cures_squish():
    made = builder("piston_heights", {"head_gaskets": "0.060 in"})
    on_the_shelf(made, "thin", "head_gaskets", "0.035", "in")
    offer = offers(made, "piston_heights")["swap"]
    assert offer["cures"] and offer["draft"]["body"]["puts"] == [{"slot": "head_gaskets", "station": "", "parts": ["thin"]}]
    assert {row["after_raw"] for row in offer["rows"]} == {round(0.040 * IN)}


def test_a_key_moves_the_camshaft_and_the_angles_stand():
    late = {"intake_opens": "20 deg", "intake_closes": "52 deg", "exhaust_opens": "52 deg", "exhaust_closes": "20 deg"}
    made = builder("cam_degreed", **late)
    assert figure(made, "intake_centreline") == 106 * DEG
    on_the_shelf(made, "plus4", "timing_key", "4", "deg")
    draft = offers(made, "cam_degreed")["swap"]["draft"]
    made.bench.marek.write(draft["type"], **draft["body"])
    assert [figure(made, fit) for fit in ("intake_centreline", "exhaust_centreline", "lobe_separation")] == [102 * DEG, 110 * DEG, 106 * DEG]
    assert made.bench.status("cam_degreed") == "done"


def test_pistons_change_bores_before_anyone_hones():
    bore, skirt = list(READINGS["bore_thrust_middle"]), list(SIZES["pistons"])
    bore[3], skirt[0] = "4.0305 in", "4.0277 in"
    found = offers(builder("pistons_measured", {"pistons": skirt}, bore_thrust_middle=bore), "pistons_measured")
    assert list(found)[0] == "match" and found["match"]["cures"]
    assert sorted(put["station"] for put in found["match"]["draft"]["body"]["puts"]) == ["1", "4"]


def test_one_tight_piston_is_honed_for():
    skirt = list(SIZES["pistons"])
    skirt[0] = "4.0278 in"
    offer = offers(builder("pistons_measured", {"pistons": skirt}), "pistons_measured")["cut"]
    assert offer["cures"] and [row["station"] for row in offer["rows"] if row["moved"]] == ["1"]


@pytest.mark.parametrize(("step", "kind", "sizes", "readings"), [
    ("ring_gaps", "rings", {}, {"gap_top": "0.0150 in"}),
    ("ring_gaps", "rings", {}, {"gap_second": "0.0150 in"}),
    ("chambers", "cut", {}, {"chamber": "48.0 cm3"}),
    ("chambers", "cut", {}, {"chamber": "70.0 cm3"}),
    ("trial_head", "length", {}, {"checker_intake": "7.213 in"}),
    ("lash_set", "turns", {}, {"gap_exhaust": "0.0260 in"}),
    ("lash_set", "turns", {}, {"gap_intake": "0.0260 in"}),
])  # fmt: skip
def test_the_bench_is_offered_a_cure(step, kind, sizes, readings):
    assert kind in offers(builder(step, sizes, **readings), step)


def test_a_shim_restores_the_installed_height():
    made = builder("spring_heights", height_intake=["1.930 in"] + ["1.900 in"] * 7)
    on_the_shelf(made, "thirty", "spring_shim", "0.030", "in")
    offer = offers(made, "spring_heights")["springs"]
    assert offer["cures"] and [row["after_raw"] for row in offer["rows"] if row["station"] == "I1"] == [round(1.9 * IN)]
