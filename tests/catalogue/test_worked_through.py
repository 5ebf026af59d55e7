"""The short block can be worked from its first step to its last, through the kernel's door; whole engines have their own files."""

from __future__ import annotations

import pytest
from catalogue import library

from ..kernel.bench import Bench

READINGS = {"main_journal": 2.4480, "main_bore": 2.4502}  # invented: 2.2 thou at every main, in for a race engine
ALL = {("pushrod-v8", 1): library.load_all()[("pushrod-v8", 1)]}


def text(point: str) -> str:
    return f"{READINGS[point]:.4f}" if point in READINGS else "7.0"


def does(bench: Bench, step: dict) -> None:
    bench.marek.does(step["id"], **{point: [text(point) for _ in bench.stations(point)] for point in step["reads"]})


@pytest.mark.parametrize("made", ALL.values(), ids=[name for name, _ in ALL])
def test_each_step_comes_up_in_turn_and_the_last_one_ends_the_build(made):
    bench = Bench(made)
    for step in made["steps"]:
        assert bench.overview()["next"] == step["id"]
        view = bench.ask("step", step=step["id"])
        assert view["title"] == step["title"] and view["reason"] == step["why"] and not view["holds"]
        does(bench, step)
        assert bench.status(step["id"]) == "done"
    assert bench.overview()["next"] is None
    assert bench.ask("review")["findings"] == []


@pytest.mark.parametrize("made", ALL.values(), ids=[name for name, _ in ALL])
def test_lifting_the_crank_at_the_end_brings_the_work_back_to_it(made):
    bench = Bench(made)
    for step in made["steps"]:
        does(bench, step)
    bench.marek.write("step.undone", step="crank_in", why="speck seen on a shell")
    assert bench.overview()["next"] == "crank_in"
    for step in ("caps_torqued", "thrust_seated", "thrust_cap_torqued", "crank_turns", "crank_end_play"):
        assert bench.status(step) == "stale"
    assert bench.status("main_bores") == "done"


def test_a_shell_changed_after_the_crank_is_in_brings_its_cap_and_bore_back():
    bench = Bench(ALL[("pushrod-v8", 1)])
    for step in bench.procedure["steps"]:
        does(bench, step)
    bench.marek.write("part.added", part="spare", kind="upper_shell", title="spare half", size=None)
    bench.marek.write("parts.put", puts=[{"slot": "main_shell_upper", "station": "2", "parts": ["spare"]}], why="scored")
    assert bench.overview()["next"] == "caps_for_measuring"
    torque = bench.ask("step", step="caps_for_measuring")["torque"]
    assert {f["station"] for f in torque["fasteners"] if f["state"] != "pulled"} == {"2"}
    stale = [e["station"] for e in bench.ask("step", step="main_bores")["entries"] if e["state"] == "stale"]
    assert stale == ["2"]
    assert bench.status("retainer") == "stale"
    play = bench.ask("step", step="cam_end_play")["entries"][0]
    assert (play["spot"], play["state"]) == ("cam_float", "made"), "the camshaft was not touched"
