"""Writes tests/cases/*.json: whole builds as logs, judged by every runtime of the kernel.

Run from the repository: `python -m tests.kernel.write_cases`. A case carries its procedure as it then stood, so that old logs
stay readable; write a new case rather than change one that tells something.
"""

from __future__ import annotations

import json
from pathlib import Path

from .bench import METRIC, NOW, PEOPLE, THOU, Bench
from .test_corrections_at_the_bench import read_mains
from .test_gates import at_cam_end_play, measured
from .test_stale import swap
from .test_two_people import two_readings

FOLDER = Path(__file__).parent.parent / "cases"


def finished() -> Bench:
    bench = at_cam_end_play("6.0")
    bench.marek.does("timing_set")
    bench.marek.does("retainer")
    return bench


def held_with_shims() -> Bench:
    bench = at_cam_end_play("41.0")
    for name, thou in (("s1", "20"), ("s2", "15"), ("s3", "10"), ("s4", "5")):
        bench.marek.write("part.added", part=name, kind="cam_shim", title=f"{thou} shim", size={"text": thou, "unit": "thou"})
    bench.marek.write("concession", fit="cam_end_play", station="", value=41 * 25_400, reason="– “für ein Rennen” –", granted_by="Tomasz")
    return bench


def swapped() -> Bench:
    bench = measured()
    swap(bench, "1", "4")
    bench.marek.write("step.undone", step="caps_for_measuring", why="bolt oiled again")
    return bench


def struck_and_misshapen() -> Bench:
    bench = two_readings()
    wrong = bench.marek.reads("main_journal@2", "2.4840")
    bench.marek.write("strike", event=wrong, why="digits turned round")
    bench.marek.write("engine.sang", loudly=True)
    bench.marek.write("reading", point="main_bore")
    return bench


CASES = {
    "a-new-build": Bench,
    "a-finished-short-block": finished,
    "held-at-cam-end-play-with-shims-and-a-concession": held_with_shims,
    "shells-swapped-and-caps-off": swapped,
    "mains-uneven-trial-offered": lambda: read_mains("1.9", "2.5", "2.2", "2.6", "2.9"),
    "two-readings-one-struck-one-misshapen": struck_and_misshapen,
}


def case(says: str, bench: Bench) -> dict:
    asks = [
        {"op": "open", "build": "b-boat", "procedure": bench.procedure, "events": bench.events, "people": PEOPLE},
        {"op": "fold", "build": "b-boat"},
    ]
    for units in (THOU, METRIC):
        same = {"build": "b-boat", "units": units, "now": NOW + 3_600_000}
        asks += [{"op": "overview", **same}, {"op": "review", **same}, {"op": "status", **same}]
        asks += [{"op": "step", "step": step["id"], **same} for step in bench.procedure["steps"]]
    overview = bench.overview()
    return {
        "says": says.replace("-", " "),
        "requests": asks,
        "expect": {"next": overview["next"], "statuses": {s["id"]: s["status"] for s in overview["steps"]}},
    }


def main() -> None:
    FOLDER.mkdir(exist_ok=True)
    for name, make in CASES.items():
        (FOLDER / f"{name}.json").write_text(json.dumps(case(name, make()), ensure_ascii=False, sort_keys=True) + "\n")


if __name__ == "__main__":
    main()
