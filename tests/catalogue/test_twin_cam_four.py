"""The twin-cam four, whole: what people forget is there, it can be walked to its end, and its formulas give published figures."""

from __future__ import annotations

from pathlib import Path

import pytest
from catalogue import library

from .readings_four import CHOICES, READINGS, SIZES
from .whole_build import Builder, Texts, asked, holds

FOUR = library.compile_file(Path(library.PROCEDURES) / "twin-cam-four.yaml")
STEPS = {step["id"]: step for step in FOUR["steps"]}

FORGOTTEN = {
    "galleries": ["restrictors", "dowels", "oil_jets", "gallery_plugs"],
    "shells_in": ["backs_dry", "tangs_home", "oil_holes", "caps_own_seats"],
    "rod_shells_in": ["rod_backs_dry", "rod_tangs_home", "rod_caps_own"],
    "pistons_on_rods": ["piston_on_rod", "locks_seated", "locks_turned"],
    "crank_in": ["thrust_uppers", "shells_oiled"],
    "thrust_seated": ["thrust_lowers", "pried"],
    "caps_torqued": ["caps_front", "main_lube"],
    "rings_on": ["expander", "side_up", "gaps_apart"],
    "pistons_in": ["bolts_covered", "own_bore", "piston_front"],
    "rods_torqued": ["cap_numbers", "rod_lube"],
    "valves_in": ["valves_own", "valve_locks", "shims_under"],
    "head_on": ["head_dowels", "gasket_way", "pistons_half"],
    "head_torqued": ["head_lube", "wet_holes"],
    "cams_in": ["buckets_own", "lobes_lubed", "cam_caps_own"],
    "lash": ["all_sixteen"],
    "timing_set": ["crank_key", "cam_keys"],
    "tensioner": ["tensioner_released", "tensioner_plug", "two_turns", "bar_off"],
    "pickup": ["pickup_fixed", "pickup_seal"],
    "front_closed": ["seal_lips", "cover_corners"],
    "bottom_closed": ["pan_corners", "drain_plug"],
    "pistons_out": ["caps_back", "weighed_again"],
    "pulley_on": ["pulley_key", "crank_bolt"],
    "mark_checked": ["stop_out_again"],
    "outside_on": ["port_sealant"],
    "filled": ["oil_level", "plugs_looked"],
    "before_fire": ["bar_wheel_off", "extinguisher"],
    "leak_test": ["crank_unlocked"],
    "torque_again": ["head_marks"],
}


def built(readings: Texts | None = None, sizes: Texts | None = None, **choices: str) -> Builder:
    return Builder(FOUR, {**CHOICES, **choices}, {**READINGS, **(readings or {})}, {**SIZES, **(sizes or {})})


@pytest.fixture(scope="module")
def done() -> Builder:
    builder = built()
    builder.works()
    return builder


@pytest.mark.parametrize("step", FORGOTTEN)
def test_what_people_forget_is_asked_with_its_reason(step):
    for item in FORGOTTEN[step]:
        assert asked(STEPS[step], item)["why"]


def test_what_is_forgotten_last_comes_last():
    last = [s["confirms"][-1]["id"] for s in FOUR["steps"] if s["confirms"] and s["confirms"][-1]["last"]]
    assert {"locks_turned", "gaps_apart", "bar_off", "drain_plug", "pickup_fixed", "gasket_way", "oil_level"} <= set(last)


def test_every_step_says_why_and_where_it_comes_from():
    assert all(step["source"] and step["why"] for step in FOUR["steps"])


def test_the_whole_build_is_walked_to_its_end():
    builder = built()
    builder.walks()
    assert holds(builder) == []


def test_every_fit_is_worked_out_and_in(done):
    for fit in FOUR["fits"]:
        assert {row["state"] for row in done.fits(fit)} == {"in"}, fit


def test_the_head_is_pulled_twice_by_torque_and_turned_twice():
    torque = STEPS["head_torqued"]["torque"]
    assert torque["pass_kinds"] == ["torque", "torque", "angle", "angle"]
    assert torque["passes"] == [20_000_000, 40_000_000, 90_000_000, 90_000_000]  # uN.m, microdegree
    assert len(torque["fasteners"]) == 10


@pytest.mark.parametrize(
    ("step", "point", "text", "gate"),
    [
        ("crank_in", "main_bore", "52.020 mm", "main_clearance"),
        ("pistons_tried", "crank_float", "0.050 mm", "crank_end_play"),
        ("pistons_tried", "rod_bore", "48.010 mm", "rod_clearance"),
        ("pistons_in", "top_gap", "0.20 mm", "ring_gap_top"),
        ("head_on", "in_drop_10", "1.5 mm", "valve_to_piston_intake"),
        ("timing_set", "exhaust_gap", "0.05 mm", "lash_exhaust"),
        ("bottom_closed", "pickup_gap", "3.0 mm", "pickup_clearance"),
        ("bottom_closed", "rod_bolt_pulled", "41.050 mm", "rod_bolt_strain"),
        ("before_fire", "balancer_off", "2.0 deg", "balancer_mark"),
        ("before_fire", "prime_reading", "0.50 bar", "priming_pressure"),
    ],
)
def test_what_would_spoil_the_next_step_holds_it(step, point, text, gate):
    builder = built({point: text})
    builder.works(until=step)
    assert builder.bench.status(step) == "held"
    assert {fit["fit"] for fit in builder.closed(step)} == {gate}


def test_a_bucket_shim_changed_at_the_end_brings_cams_lash_and_timing_back():
    builder = built()
    builder.works()
    builder.bench.marek.write("part.added", part="shim-245", kind="bucket_shim", title="bucket shim 2.45", size={"text": "2.45", "unit": "mm"})
    builder.bench.marek.write("parts.put", puts=[{"slot": "bucket_shim_intake", "station": "I3", "parts": ["shim-245"]}], why="tight after running")
    assert builder.bench.overview()["next"] == "cams_in"
    for step in ("cam_caps_torqued", "lash", "timing_set", "wheels_torqued", "tensioner", "cam_cover_on"):
        assert builder.bench.status(step) == "stale", step
    assert builder.bench.status("head_torqued") == "done"
    assert builder.bench.status("bottom_closed") == "waiting", "the pan stays on and its work stands"
    stale = [e["spot"] for e in builder.bench.view("lash")["entries"] if e["state"] == "stale"]
    assert "intake_gap@I3" in stale


def test_lifting_the_crank_takes_head_and_pan_with_it():
    builder = built()
    builder.works()
    builder.bench.marek.write("step.undone", step="crank_in", why="speck seen on a shell")
    assert builder.bench.overview()["next"] == "crank_in"
    for step in ("thrust_cap_torqued", "pistons_in", "rods_torqued", "head_torqued", "timing_set", "bottom_closed", "primed", "before_fire"):
        assert builder.bench.status(step) == "stale", step
    for step in ("main_bores", "rod_bores", "ring_gaps", "valves_checked", "springs"):
        assert builder.bench.status(step) == "done", step


# --- published values -------------------------------------------------------------------------------------------------

def shown(readings: Texts, sizes: Texts, fit: str, unit: str, station: str = "", **choices: str) -> float:
    """A fit from these readings alone (and the sheet's figures they need)."""
    builder = Builder(FOUR, choices, readings, sizes)
    builder.tells()
    return builder.value(fit, unit, station)


def test_compression_ratio_of_the_combustion_text():
    """V_s 245 cc, V_c 27.22 -> 10.00 (combustion-engine text, FOSSEE Scilab textbook companion 443, Ex 1.1; read and recomputed)."""
    same = {name: "70.010 mm" for name in ("bore_top_a", "bore_top_b", "bore_mid_a", "bore_mid_b", "bore_low_a", "bore_low_b")}
    # gasket 70.01 mm x 0.50 mm holds 1.925 cm3, the flat crown set down 10 mm 38.496 cm3: the chamber makes up 27.22
    readings = {**same, "stroke": "63.64 mm", "gasket_bore": "70.010 mm", "piston_drop": "10.000 mm", "crown_poured": "38.496 cm3",
                "deck_depth": "0.000 mm", "chamber_volume": "25.295 cm3"}
    sizes = {"head_gasket": "0.500 mm"}
    assert shown(readings, sizes, "displacement", "cm3", "1") == pytest.approx(245.0, abs=0.05)
    assert shown(readings, sizes, "clearance_volume", "cm3", "1") == pytest.approx(27.22, abs=0.002)
    assert shown(readings, sizes, "compression_ratio", ":1", "1") == pytest.approx(10.00, abs=0.001)


SAME_BORE = {name: "4.0000 in" for name in ("bore_top_a", "bore_top_b", "bore_mid_a", "bore_mid_b", "bore_low_a", "bore_low_b")}


@pytest.mark.parametrize(("closes", "ratio"), [("66.0 deg", 8.299), ("0.0 deg", 10.5)])
def test_dynamic_ratio_of_a_longer_stroke(closes, ratio):
    """CR 10.5, 3.48/5.7 in, closing 66 deg ABDC -> 8.299; at bottom dead centre the static ratio (constructed from the formula)."""
    area = 12.566371 * 2.54**2  # cm2 of a 4 in bore
    above = area * 3.48 * 2.54 / 9.5  # cm3 for 10.5
    readings = {**SAME_BORE, "stroke": "3.4800 in", "rod_length": "5.7000 in", "gasket_bore": "4.0000 in", "piston_drop": "10.000 mm",
                "crown_poured": f"{area * 1.0:.3f} cm3", "deck_depth": "0.000 mm", "chamber_volume": f"{above - area * 0.05:.3f} cm3", "intake_shuts": closes}
    sizes = {"head_gasket": "0.500 mm", "intake_key": "0 deg"}
    assert shown(readings, sizes, "dynamic_ratio", ":1", "1") == pytest.approx(ratio, abs=0.001)


def test_mean_piston_speed_of_the_square_six():
    """3 L V6, square, 8.60 cm, 3600 rpm -> 10.32 m/s (combustion-engine text; arithmetic recomputed)."""
    assert shown({"stroke": "86.0 mm", "redline": "3600 rpm"}, {}, "mean_piston_speed", "m/s") == pytest.approx(10.32, rel=0.005)


def test_cam_figures():
    """10/40/50/10 -> 230, 240, 105, 110, 107.5, overlap 20 (constructed from the formulas)."""
    readings = {"intake_opens": "10 deg", "intake_closes": "40 deg", "exhaust_opens": "50 deg", "exhaust_closes": "10 deg"}
    keys = {"intake_key": "0 deg", "exhaust_key": "0 deg"}
    wanted = {"intake_duration": 230, "exhaust_duration": 240, "intake_centreline": 105, "exhaust_centreline": 110, "lobe_separation": 107.5, "overlap": 20}
    assert {fit: shown(readings, keys, fit, "deg") for fit in wanted} == wanted


def test_overlap_of_the_army_manual():
    """28 deg BTDC + 45 deg ATDC = 73 deg (US Army TM 9-8000)."""
    keys = {"intake_key": "0 deg", "exhaust_key": "0 deg"}
    assert shown({"intake_opens": "28 deg", "exhaust_closes": "45 deg"}, keys, "overlap", "deg") == 73


def test_a_late_intake_key_moves_the_centreline_later_and_the_overlap_down():
    readings = {"intake_opens": "25 deg", "intake_closes": "55 deg", "exhaust_opens": "55 deg", "exhaust_closes": "25 deg"}
    keys = {"intake_key": "2 deg", "exhaust_key": "0 deg"}
    assert shown(readings, keys, "intake_centreline", "deg") == 107
    assert shown(readings, keys, "overlap", "deg") == 48


def test_spring_rate_of_the_machine_design_text():
    """150 N at 35 mm, 300 N at 30 mm -> 30 N/mm (machine-design text, FOSSEE Scilab textbook companion 764, Ex 10.4)."""
    readings = {"tester_high": "35 mm", "tester_low": "30 mm", "intake_load_high": "150 N", "intake_load_low": "300 N"}
    assert shown(readings, {}, "spring_rate_intake", "N/mm", "I1") == pytest.approx(30.0, rel=0.001)


def test_leak_down_of_the_advisory_circular():
    """80 psi supplied, 60 held -> 25 % (FAA AC 43.13-1B 8-14)."""
    assert shown({"leak_supply": "80 psi", "leak_held": "60 psi"}, {}, "leak_down", "%", "1") == pytest.approx(25.0)


def test_growth_of_an_aluminium_housing_on_a_steel_crank():
    """2.5 in journal, 356 housing, 4340 crank, +80 K -> +.00184 in (constructed from published coefficients)."""
    readings = {"main_front_a": "2.5000 in", "main_front_b": "2.5000 in", "main_rear_a": "2.5000 in", "main_rear_b": "2.5000 in",
                "main_bore": "2.5025 in", "oil_rise": "80 K"}
    hot = shown(readings, {}, "main_clearance_hot", "in", "1", block_material="aluminium_356", crank_material="steel_4340")
    assert hot - 0.0025 == pytest.approx(0.00184, abs=1e-6)
