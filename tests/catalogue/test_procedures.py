"""The procedures that are shipped: they compile, agree with the ledger, and say enough to work by."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from catalogue import library
from catalogue.__main__ import as_json, main
from catalogue.errors import ProcedureError
from catalogue.ledger import enter, read_ledger

ROOT = Path(__file__).parents[2]
CASE = ROOT / "tests/cases/procedures/pushrod-v8.json"
ALL = library.load_all()
V8 = ALL[("pushrod-v8", 1)]
EACH = pytest.mark.parametrize("made", ALL.values(), ids=[f"{name}-{revision}" for name, revision in ALL])
CAPS = {key: made for key, made in ALL.items() if any(step["id"] == "thrust_cap_torqued" for step in made["steps"])}
EACH_WITH_CAPS = pytest.mark.parametrize("made", CAPS.values(), ids=[f"{name}-{revision}" for name, revision in CAPS])


def steps(made: dict) -> dict:
    return {step["id"]: step for step in made["steps"]}


def test_every_procedure_is_in_the_ledger_with_its_digest():
    assert read_ledger(library.LEDGER) == {key: made["digest"] for key, made in ALL.items()}


def test_the_case_for_the_kernel_is_fresh():
    assert CASE.read_text(encoding="utf-8") == as_json(V8) + "\n", (
        f"write it again: cd backend && python -m catalogue json catalogue/procedures/pushrod-v8.yaml > {CASE}"
    )


@EACH
def test_every_limit_says_where_it_comes_from_and_serves_each_duty(made):
    for rows in made["limits"].values():
        assert {row["duty"] for row in rows} == {"street", "race", "endurance", "boosted"}
        assert all(row["source"] and row["dated"] == "2026-11-25" for row in rows)


def largest(value) -> int:
    if isinstance(value, (dict, list)):
        return max([largest(v) for v in (value.values() if isinstance(value, dict) else value)], default=0)
    return abs(value) if isinstance(value, int) else 0


@EACH
def test_a_phones_json_carries_every_integer_exactly(made):
    assert largest(made) < 2**53


@EACH
def test_a_reading_disturbs_itself_when_its_step_is_undone(made):
    for step in made["steps"]:
        assert set(step["reads"]) <= set(step["disturbs"]["points"]), step["id"]


@EACH
def test_nothing_earlier_is_disturbed_by_undoing_a_step(made):
    order = [step["id"] for step in made["steps"]]
    for at, step in enumerate(made["steps"]):
        assert not set(step["disturbs"]["steps"]) & set(order[: at + 1]), step["id"]


@EACH_WITH_CAPS
def test_lifting_the_crank_makes_all_above_it_stale(made):
    stale = steps(made)["crank_in"]["disturbs"]
    assert {"caps_torqued", "thrust_seated", "thrust_cap_torqued", "crank_turns"} <= set(stale["steps"])
    assert "crank_float" in stale["points"] and "main_bore" not in stale["points"]


@EACH_WITH_CAPS
def test_each_main_bolt_is_pulled_once_a_pass_and_the_thrust_cap_last(made):
    by_id = steps(made)
    assert [f["id"] for f in by_id["caps_for_measuring"]["torque"]["fasteners"]] == [str(n) for n in range(1, 11)]
    spots = [(f["x"], f["y"]) for s in ("caps_torqued", "thrust_cap_torqued") for f in by_id[s]["torque"]["fasteners"]]
    assert sorted(spots) == sorted((f["x"], f["y"]) for f in by_id["caps_for_measuring"]["torque"]["fasteners"])
    assert len(by_id["thrust_cap_torqued"]["torque"]["fasteners"]) == 2


def test_race_limits_of_the_v8_in_nanometres():
    race = {name: next(r for r in rows if r["duty"] == "race") for name, rows in V8["limits"].items()}
    # common practice, no published source: 2.0-3.0 thou aim 2.5; 0.5 thou; 5-10 thou aim 7; 4-10 thou aim 6
    figures = {name: [None if row[e] is None else row[e] / 25_400 for e in ("low", "high", "aim")] for name, row in race.items()}
    assert figures == {"main_clearance": [2, 3, 2.5], "main_spread": [None, 0.5, None], "crank_end_play": [5, 10, 7], "cam_end_play": [4, 10, 6]}


def test_the_v8_holds_only_where_it_must():
    assert {s["id"]: s["gates"] for s in V8["steps"] if s["gates"]} == {
        "crank_in": ["main_clearance"],
        "cam_in": ["crank_end_play"],
        "timing_set": ["cam_end_play"],
    }


def test_a_changed_revision_is_refused_by_the_ledger(tmp_path, good):
    file, ledger = tmp_path / "small.yaml", tmp_path / "LEDGER"
    file.write_text(good, encoding="utf-8")
    assert enter(ledger, library.compile_file(file), "small.yaml") is True
    assert enter(ledger, library.compile_file(file), "small.yaml") is False
    assert list(library.load_folder(tmp_path, ledger)) == [("small", 1)]
    file.write_text(good.replace("high: 0.0030 in", "high: 0.0031 in"), encoding="utf-8")
    with pytest.raises(ProcedureError, match="make the change as revision 2"):
        library.load_folder(tmp_path, ledger)
    with pytest.raises(ProcedureError, match="make the change as revision 2"):
        enter(ledger, library.compile_file(file), "small.yaml")
    assert len(ledger.read_text().splitlines()) == 1
    file.write_text(good.replace("high: 0.0030 in", "high: 0.0031 in").replace("revision: 1", "revision: 2"), encoding="utf-8")
    assert list(library.load_folder(tmp_path, ledger)) == [("small", 2)]


def test_one_revision_in_two_files_is_refused(tmp_path, good):
    for name in ("a.yaml", "b.yaml"):
        (tmp_path / name).write_text(good, encoding="utf-8")
    with pytest.raises(ProcedureError, match="is in another file as well"):
        library.load_folder(tmp_path, tmp_path / "LEDGER")


def test_a_torn_ledger_is_refused(tmp_path):
    (tmp_path / "LEDGER").write_text("small 1\n")
    with pytest.raises(ProcedureError, match="A line of the ledger is"):
        read_ledger(tmp_path / "LEDGER")


def test_the_command_says_what_is_wrong(tmp_path, good, capsys):
    bad = tmp_path / "bad.yaml"
    bad.write_text(good.replace("formula: bore - journal", "formula: bore - jornal"), encoding="utf-8")
    assert main(["check", str(bad)]) == 1
    assert f"{bad}, line 17: Fit 'clearance': 'jornal' is neither" in capsys.readouterr().err
    assert main(["check", str(tmp_path / "none.yaml")]) == 1
    assert "There is no such file." in capsys.readouterr().err
    (tmp_path / "odd.yaml").write_bytes(b"\xff\xfe\x00")
    assert main(["check", str(tmp_path / "odd.yaml")]) == 1
    assert main([]) == 2 and main(["eat", "x"]) == 2


def test_the_json_command_prints_the_compiled_procedure(capsys):
    assert main(["json", str(library.PROCEDURES / "pushrod-v8.yaml")]) == 0
    assert json.loads(capsys.readouterr().out) == V8
