"""`make test` runs two lanes: nothing either of them says is lost or mixed, and one failure anywhere fails the whole."""

import sys
from pathlib import Path

import pytest

SCRIPTS = Path(__file__).resolve().parents[2] / "scripts"


@pytest.fixture
def lanes(monkeypatch):
    monkeypatch.syspath_prepend(str(SCRIPTS))
    monkeypatch.delitem(sys.modules, "test", raising=False)  # Python brings a module of that name too
    import test as lanes

    assert lanes.__file__ == str(SCRIPTS / "test.py")
    yield lanes
    for name in ("test", "places", "frontend"):
        sys.modules.pop(name, None)


def says(words: str, code: int = 0, wait: float = 0) -> list[str]:
    return [sys.executable, "-c", f"import sys, time; time.sleep({wait}); print({words!r}, flush=True); time.sleep({wait}); sys.exit({code})"]


def test_what_the_lane_beside_printed_comes_whole_and_last(lanes, capfd):
    with lanes.Beside("beside", says("here is the rest", wait=0.3), {}) as beside:
        lanes.say("in front")
        outcome = beside.told()
    assert outcome.code == 0 and outcome.seconds >= 0.6
    printed = capfd.readouterr().out.splitlines()
    assert printed == ["in front", "", "== beside", "here is the rest"]


def test_a_failure_beside_is_a_failure(lanes, capfd):
    with lanes.Beside("beside", says("no", code=3), {}) as beside:
        outcome = beside.told()
    good = lanes.Outcome("in front", 0, 1.0)
    assert lanes.last_word([good, outcome]) == 1
    assert lanes.last_word([outcome, good]) == 1
    assert lanes.last_word([good]) == 0
    assert "Failed: beside" in capfd.readouterr().out


def test_an_end_before_its_time_leaves_nothing_running(lanes):
    with pytest.raises(KeyboardInterrupt):
        with lanes.Beside("beside", says("never", wait=60), {}) as beside:
            raise KeyboardInterrupt
    assert beside.running.poll() is not None and not beside.printed.exists()


def test_a_lane_killed_from_outside_is_a_failure(lanes):
    with lanes.Beside("beside", says("never", wait=60), {}) as beside:
        beside.running.kill()
        assert lanes.last_word([beside.told()]) == 1
