"""What comes apart must be checked again."""

from __future__ import annotations

from .bench import NOW
from .test_gates import at_cam_end_play, measured


def swap(bench, a: str, b: str) -> None:
    puts = []
    for here, there in ((a, b), (b, a)):
        for half in ("main_shell_upper", "main_shell_lower"):
            puts.append({"slot": half, "station": here, "parts": [f"{half}@{there}"]})
    bench.marek.write("parts.put", puts=puts, why="level the mains")


def test_swapped_shells_make_their_stations_stale_and_no_others():
    bench = measured()
    swap(bench, "1", "4")
    states = {e["station"]: e["state"] for e in bench.view("main_bores")["entries"] if e["kind"] == "reading" and not e["optional"]}
    assert states == {"1": "stale", "2": "made", "3": "made", "4": "stale", "5": "made"}
    fits = {f["station"]: f["state"] for f in bench.view("main_bores")["fits"] if f["fit"] == "main_clearance"}
    assert (fits["1"], fits["2"]) == ("stale", "in")


def test_only_the_bolts_of_the_swapped_caps_are_pulled_again_pass_by_pass():
    bench = measured()
    swap(bench, "1", "4")
    assert bench.overview()["again"][0]["what"] == ["torque of 5, 6, 7 and 8"]
    pulled = []
    for _ in range(12):
        following = bench.view("caps_for_measuring")["torque"]["next"]
        body = following["draft"]["body"]
        pulled.append((body["pass"], body["fastener"]))
        bench.marek.write("torque.pulled", **body)
    assert pulled == [(p, f) for p in (1, 2, 3) for f in ("5", "6", "7", "8")]
    assert bench.view("caps_for_measuring")["torque"]["next"] is None


def test_a_stale_station_read_again_is_fresh():
    bench = measured()
    swap(bench, "1", "4")
    bench.marek.pulls("caps_for_measuring", ["5", "6", "7", "8"])
    bench.marek.reads("main_bore@1", "2.4505")
    bench.marek.reads("main_bore@4", "2.4504")
    assert bench.status("main_bores") == "done"
    assert bench.overview()["next"] == "caps_off"


def test_putting_back_the_same_parts_disturbs_nothing():
    bench = measured()
    bench.marek.write("parts.put", puts=[{"slot": "main_shell_upper", "station": "1", "parts": ["main_shell_upper@1"]}], why="looked")
    assert bench.status("main_bores") == "done"


def test_lifting_the_crank_makes_everything_above_it_stale_and_says_what_to_do_again():
    bench = at_cam_end_play("6.0")
    bench.marek.write("step.undone", step="crank_in", why="a tight spot")
    again = {a["step"] for a in bench.overview()["again"]}
    assert {"crank_in", "caps_torqued", "thrust_seated", "thrust_cap_torqued", "crank_end_play"} <= again
    assert bench.status("main_bores") == "done"
    assert any("Crank end play" in says for says in bench.finds("stale"))


def test_a_reading_by_somebody_who_did_not_know_the_crank_was_lifted_is_stale():
    bench = at_cam_end_play("6.0")
    bench.marek.syncs()
    bench.juno.seen = bench.head
    bench.marek.write("step.undone", step="crank_in", why="a tight spot")
    bench.marek.syncs()
    bench.juno.reads("crank_float", "8.0", "thou")
    bench.juno.syncs()
    assert bench.view("crank_end_play")["fits"][0]["state"] == "stale"


def test_a_restart_in_the_middle_of_a_torque_sequence_resumes_at_the_right_bolt():
    bench = measured()
    bench.marek.does("crank_in")
    for fastener in ("1", "2", "3"):
        bench.marek.write("torque.pulled", step="caps_torqued", fastener=fastener, again=False, **{"pass": 1})
    later = NOW + 1000 * len(bench.events) + 6 * 60_000
    torque = bench.view("caps_torqued", now=later)["torque"]
    assert torque["next"]["fastener"] == "4"
    assert torque["cue"] == "You stopped after 3, 6 minutes ago. Pull 3 once more, then go on with 4."
    bench.marek.write("torque.pulled", **torque["last"]["draft"]["body"])
    assert bench.view("caps_torqued", now=later)["torque"]["next"]["fastener"] == "4"


def test_missing_torque_marks_and_pulls_before_their_turn_are_found():
    bench = measured()
    bench.marek.does("crank_in")
    bench.marek.write("torque.pulled", step="caps_torqued", fastener="1", again=False, **{"pass": 1})
    bench.marek.write("torque.pulled", step="caps_torqued", fastener="1", again=False, **{"pass": 2})
    bench.marek.write("torque.pulled", step="caps_torqued", fastener="2", again=False, **{"pass": 1})
    found = bench.finds("torque_marks")
    assert any("pass 1: no mark for 3, 4" in says for says in found)
    assert any("pass 2: 1 came before pass 1 was complete" in says for says in found)
