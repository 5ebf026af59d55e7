"""A handful of schedules on every run, and for ever those that once failed. `make faults` plays thousands."""

import json
from pathlib import Path

import pytest

from .play import play
from .schedule import drawn
from .shrink import shortest

KEPT = sorted((Path(__file__).parent / "kept").glob("*.json"))
FEW = 12


@pytest.mark.parametrize("file", KEPT, ids=[f.stem for f in KEPT])
def test_a_schedule_that_once_failed(box, current, file):
    assert play(json.loads(file.read_text())["steps"], box, file.stem, current) == []


def test_a_few_schedules(box, current):
    wrong = {seed: found for seed in range(FEW) if (found := play(drawn(seed), box, f"few-{seed}", current))}
    assert wrong == {}


def test_the_harness_sees_a_loss(box, current, monkeypatch):
    """A server that forgets one event after acknowledging it is caught, and the schedule is shortened to what it takes."""
    from record import intake

    really = intake.insert
    monkeypatch.setattr(intake, "insert", lambda rows: really(row for row in rows if row.n != 2))
    steps = [{"op": "phone", "phone": 0, "people": ["ines"], "locks": True, "code": "now"}, {"op": "tick", "phone": 0, "tab": 0, "ms": 10},
             {"op": "append", "phone": 0, "tab": 0, "build": "b-boat", "what": "open", "n": 1, "who": 0}, {"op": "tick", "phone": 0, "tab": 0, "ms": 10},
             {"op": "append", "phone": 0, "tab": 0, "build": "b-boat", "what": "reading", "n": 2, "who": 0}]  # fmt: skip
    tries = iter(range(1000))
    short = shortest(steps, lambda fewer: bool(play(fewer, box, f"loss-{next(tries)}", current)))
    assert [s["op"] for s in short] == ["phone", "append", "append"]


def test_the_same_seed_draws_the_same_schedule():
    assert drawn(7) == drawn(7) != drawn(8)
