"""`make goals` ends with its table whatever failed before it, and is good only when all of it is."""

import sys
from pathlib import Path

import pytest

SCRIPTS = Path(__file__).resolve().parents[2] / "scripts"


@pytest.fixture
def goals(monkeypatch, tmp_path):
    monkeypatch.syspath_prepend(str(SCRIPTS))
    import all_goals

    monkeypatch.setattr(all_goals, "BUILD", tmp_path)
    yield all_goals
    for name in ("all_goals", "places"):
        sys.modules.pop(name, None)


@pytest.mark.parametrize("broken", [None, "every benchmark", "every check at its full size", "the sixteen goals"])
def test_every_part_runs_and_the_table_comes_last(goals, monkeypatch, tmp_path, broken):
    (tmp_path / "goal_01.json").write_text("[]")
    ran = []

    def run(title, *arguments, **env):
        ran.append(title)
        return title, int(title == broken)

    monkeypatch.setattr(goals, "run", run)
    assert goals.main() == (0 if broken is None else 1)
    assert len(ran) == 5 and ran[-1] == "the sixteen goals"
    assert not list(tmp_path.glob("*.json")), "figures of another day are not in the table"
