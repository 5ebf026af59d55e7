"""Corrections as the builder meets them: offered, done, read again."""

from __future__ import annotations

import copy

from .bench import PROCEDURE, Bench
from .test_gates import at_cam_end_play

JOURNALS = ["2.4480"] * 5


def read_mains(*thou: str) -> Bench:
    """Mains that read so many thou of clearance, over journals of 2.4480 in."""
    bench = Bench()
    bench.marek.does("journals", main_journal=JOURNALS)
    bench.marek.does("shells_in")
    bench.marek.does("caps_for_measuring")
    bench.marek.does("main_bores", main_bore=[bore(t) for t in thou])
    return bench


def bore(thou: str) -> str:
    return f"{2.448 + float(thou) / 1000:.4f}"


def test_nothing_is_offered_when_all_are_in_and_level():
    assert read_mains("2.4", "2.5", "2.4", "2.5", "2.6").view("main_bores")["offers"] == []


def test_without_walls_the_extremes_are_tried_then_their_difference_is_known():
    """Mains 2.0, 2.4, 2.4, 2.7: exchanging 1 and 4 gave 2.3 and 2.4, a wall difference of 0.3 thou (common practice, no published source)."""
    bench = read_mains("2.0", "2.4", "2.4", "2.7", "2.4")
    trial = bench.view("main_bores")["offers"][0]
    assert (trial["kind"], trial["title"]) == ("trial", "Try: exchange the shells of 1 and 4")
    assert "stay at 4.7 together" in trial["says"]
    assert [r["after"] for r in trial["rows"]] == ["", "2.4", "2.4", "", "2.4"]
    bench.marek.write(trial["draft"]["type"], **trial["draft"]["body"])
    assert bench.view("main_bores")["offers"] == [], "nothing is offered while stations wait to be read"
    bench.marek.pulls("caps_for_measuring", ["5", "6", "7", "8"])
    bench.marek.reads("main_bore@1", bore("2.3"))
    bench.marek.reads("main_bore@4", bore("2.4"))
    assert bench.view("main_bores")["offers"] == []
    assert bench.overview()["next"] == "caps_off"


def test_with_walls_read_one_exchange_levels_and_its_figures_are_predicted():
    bench = read_mains("1.9", "2.5", "2.2", "2.6", "2.9")
    walls = {"1": "0.09330", "2": "0.09300", "3": "0.09315", "4": "0.09295", "5": "0.09280"}
    for station, wall in walls.items():
        for half in ("main_shell_upper", "main_shell_lower"):
            bench.marek.write("part.measured", part=f"{half}@{station}", text=wall, unit="in")
    best = bench.view("main_bores")["offers"][0]
    assert best["cures"] and best["kind"] == "exchange"
    assert "wall readings" in best["basis"]
    after = [float(r["after"]) for r in best["rows"]]
    assert max(after) - min(after) <= 0.5
    assert all(2.0 <= a <= 3.0 for a in after)


def test_the_prediction_comes_true_when_the_shells_are_moved_and_read():
    bench = read_mains("1.9", "2.5", "2.4", "2.6", "2.9")
    for station in "12345":
        for half in ("main_shell_upper", "main_shell_lower"):
            wall = {"1": "0.09330", "5": "0.09290"}.get(station, "0.09300")
            bench.marek.write("part.measured", part=f"{half}@{station}", text=wall, unit="in")
    best = bench.view("main_bores")["offers"][0]
    bench.marek.write(best["draft"]["type"], **best["draft"]["body"])
    moved = [r for r in best["rows"] if r["moved"]]
    assert moved and best["again"].startswith("Main ")
    bench.marek.pulls("caps_for_measuring")
    for row in moved:
        bench.marek.reads(f"main_bore@{row['station']}", bore(row["after"]))
    assert bench.view("main_bores")["offers"] == []


def test_bare_housings_tell_the_walls_too():
    bench = read_mains("1.9", "2.5", "2.4", "2.6", "2.9")
    for station, housing in zip("12345", ["2.6365", "2.6366", "2.6365", "2.6367", "2.6370"], strict=True):
        bench.marek.reads(f"main_housing@{station}", housing)
    best = bench.view("main_bores")["offers"][0]
    assert best["kind"] == "exchange" and best["cures"]
    assert "bare housing" in best["basis"]


def test_nothing_on_hand_says_what_to_order():
    bench = read_mains("4.0", "4.0", "4.0", "4.0", "4.0")
    for station in "12345":
        bench.marek.reads(f"main_housing@{station}", "2.6365")
    only = bench.view("main_bores")["offers"][0]
    assert not only["cures"] and only["kind"] == "none" and only["draft"] is None
    assert "at 1 1.5 thicker" in only["says"]


def test_shims_on_hand_bring_cam_end_play_to_its_aim():
    bench = at_cam_end_play("41.0")
    for name, thou in (("s1", "20"), ("s2", "15"), ("s3", "10"), ("s4", "5")):
        bench.marek.write("part.added", part=name, kind="cam_shim", title=f"{thou} shim", size={"text": thou, "unit": "thou"})
    best = bench.view("timing_set")["offers"][0]
    assert (best["title"], best["cures"]) == ("Fit 20 + 15", True)
    assert "leaves 6.0" in best["says"]
    bench.marek.write(best["draft"]["type"], **best["draft"]["body"])
    assert bench.status("cam_end_play") == "stale"
    bench.marek.reads("cam_float", "6.0", "thou")
    assert bench.status("timing_set") == "ready"
    assert [p["id"] for p in bench.view("cam_end_play")["slots"][0]["parts"]] == ["s1", "s2"]


def test_fifty_thou_of_play_less_a_stack_of_forty_five_leaves_five():
    """Common practice, no published source."""
    bench = at_cam_end_play("50.0")
    bench.marek.write("part.added", part="s", kind="cam_shim", title="45 shim", size={"text": "45", "unit": "thou"})
    assert "leaves 5.0" in bench.view("cam_end_play")["offers"][0]["says"]


def test_no_shim_that_fits_says_which_to_order():
    bench = at_cam_end_play("41.0")
    only = bench.view("cam_end_play")["offers"][0]
    assert (only["kind"], only["draft"]) == ("none", None)
    assert "A stack of 35 would leave the aim" in only["says"]


def test_an_absurd_reading_is_asked_about_once_and_a_plain_one_is_not():
    bench = read_mains("2.4", "2.5", "2.4", "2.5", "2.6")

    def ask(text: str) -> str:
        draft = {"type": "reading", "body": {"point": "main_bore", "station": "1", "text": text, "unit": "in"}}
        return bench.ask("weigh", draft=draft)["ask"]

    assert ask("2.4504") == ""
    assert "outside anything this can be" in ask("0.2450")
    float_ = {"type": "reading", "body": {"point": "cam_float", "station": "", "text": "0.6", "unit": "thou"}}
    bench.marek.reads("cam_float", "6.0", "thou")
    assert "ten times off" in bench.ask("weigh", draft=float_)["ask"]


def test_an_upper_half_from_the_shelf_goes_to_an_upper_seat_only():
    """Upper halves carry the oil hole; in a cap they are useless, and a lower half in the block starves the bearing."""
    bench = read_mains("2.4", "2.4", "3.4", "2.4", "2.4")
    for station in "12345":
        for half in ("main_shell_upper", "main_shell_lower"):
            bench.marek.write("part.measured", part=f"{half}@{station}", text="0.0930", unit="in")
    bench.marek.write("part.added", part="spare", kind="upper_shell", title="Upper shell 0.0940", size={"text": "0.0940", "unit": "in"})
    best = bench.view("main_bores")["offers"][0]
    assert best["kind"] == "shelf"
    assert best["draft"]["body"]["puts"] == [{"slot": "main_shell_upper", "station": "3", "parts": ["spare"]}]
    bench.marek.write("parts.put", puts=[{"slot": "main_shell_lower", "station": "3", "parts": ["spare"]}], why="wrong seat")
    assert any("does not belong in" in says for says in bench.finds("readings_kept"))


def test_a_log_that_rises_tenfold_from_end_to_end_is_not_asked_about():
    """Each place is held against the last reading here and the nearest on either side, not against the far end."""
    bench = Bench(copy.deepcopy(PROCEDURE))
    bench.procedure["points"]["main_journal"]["band"] = None
    for station, text in (("1", "2.1"), ("2", "2.3"), ("4", "9.0"), ("5", "20.0")):
        bench.marek.reads(f"main_journal@{station}", text)

    def asks(station: str, text: str) -> str:
        body = {"point": "main_journal", "station": station, "text": text, "unit": "in", "tool": ""}
        return bench.ask("weigh", draft={"type": "reading", "body": body})["ask"]

    assert asks("3", "8.0") == "" and asks("5", "20.1") == ""
    assert "2.3" in asks("3", "18.5") and "9.0" in asks("3", "1.12"), "a neighbour on either side"
    assert "20.0" in asks("5", "2.1"), "the last reading here comes before the neighbour"


def test_the_keypad_holds_the_digits_that_all_readings_share():
    def held(*texts: str) -> str:
        bench = Bench()
        for station, text in zip("12345", texts, strict=False):
            bench.marek.reads(f"main_journal@{station}", text)
        return bench.view("journals")["entries"][4]["keypad"]["held"]

    assert held() == ""
    assert held("2.4480") == "2.44"
    assert held("2.4480", "2.4479") == "2.44"
    assert held("2.4480", "2.4479", "2.4799") == "2.4", "a wrong reading is not held for the next"
