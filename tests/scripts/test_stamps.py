"""A set-up step is skipped exactly when what it depends on is unchanged and what it made is still there."""

import sys
from pathlib import Path

import pytest

SCRIPTS = Path(__file__).resolve().parents[2] / "scripts"


@pytest.fixture
def stamps(monkeypatch, tmp_path):
    monkeypatch.syspath_prepend(str(SCRIPTS))
    import stamps

    monkeypatch.setattr(stamps, "ROOT", tmp_path)
    monkeypatch.setattr(stamps, "STAMPS", tmp_path / "stamps")
    yield stamps
    for name in ("stamps", "places"):
        sys.modules.pop(name, None)


def test_fresh_only_after_success_and_until_a_change(stamps, tmp_path):
    source, made = tmp_path / "a.ts", tmp_path / "made"
    source.write_text("one")
    before = stamps.digest([source])
    assert not stamps.is_fresh("app", before, made)
    made.mkdir()
    stamps.remember("app", before)
    assert stamps.is_fresh("app", stamps.digest([source]), made)
    source.write_text("two")
    assert not stamps.is_fresh("app", stamps.digest([source]), made)


def test_not_fresh_when_what_was_made_is_gone(stamps, tmp_path):
    stamps.remember("app", "x")
    assert stamps.is_fresh("app", "x")
    assert not stamps.is_fresh("app", "x", tmp_path / "dist")


def test_renaming_a_file_counts_and_built_folders_do_not(stamps, tmp_path):
    (tmp_path / "src").mkdir()
    (tmp_path / "src" / "a.ts").write_text("one")
    first = stamps.digest(stamps.files_under(tmp_path / "src"))
    (tmp_path / "src" / "node_modules").mkdir()
    (tmp_path / "src" / "node_modules" / "b.js").write_text("fetched")
    assert stamps.digest(stamps.files_under(tmp_path / "src")) == first
    (tmp_path / "src" / "a.ts").rename(tmp_path / "src" / "c.ts")
    assert stamps.digest(stamps.files_under(tmp_path / "src")) != first
