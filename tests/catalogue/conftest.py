"""A small good procedure that each test spoils in one way."""

from __future__ import annotations

import pytest
from catalogue.compile import compile_text
from catalogue.errors import ProcedureError

from .wide import TABLES, WIDE

GOOD = """\
procedure: small
revision: 1
dated: 2026-11-25
title: Small
phases:
  - {id: one, title: One}
groups:
  mains: {title: main, stations: [{id: "1", x: 10, y: 50}, {id: "2", x: 90, y: 50}]}
  rods: {title: rod, stations: [{id: "1", x: 50, y: 50}]}
points:
  bore: {title: Bore, group: mains, band: [2 in, 3 in]}
  journal: {title: Journal, group: mains, band: [2 in, 3 in]}
  rod_bore: {title: Rod bore, group: rods, band: [2 in, 3 in]}
  float: {title: Float, scale: fit, band: [0 in, 0.06 in]}
  chamber: {title: Chamber, band: [10 cm3, 90 cm3]}
fits:
  clearance: {title: Clearance, group: mains, formula: bore - journal, limit: clearance}
  level: {title: Level, formula: spread(clearance), limit: level}
limits:
  clearance: [{duty: race, low: 0.0020 in, high: 0.0030 in, aim: 0.0025 in, source: practice, dated: 2026-11-25}]
  level: [{duty: race, high: 0.0005 in, source: practice, dated: 2026-11-25}]
parts:
  shell: {title: shell, band: [0.03 in, 0.2 in]}
slots:
  upper: {title: upper, group: mains, part: shell, holds: one, disturbs: [bore, caps]}
steps:
  - {id: read, phase: one, title: Read, do: Read., why: Why., source: practice, reads: [journal, bore, float, chamber], works_out: [clearance, level]}
  - id: caps
    phase: one
    title: Caps
    do: Pull.
    why: Why.
    source: practice
    after: [read]
    gates: [clearance]
    torque: {lubricant: oil, group: mains, passes: [40 lbf.ft, 55 lbf.ft], fasteners: [{id: "1", x: 10, y: 20, station: "1"}]}
    disturbs: [turn]
  - {id: turn, phase: one, title: Turn, do: Turn., why: Why., source: practice, after: [caps], disturbs: [float], confirms: [{id: free, text: Free}]}
"""


@pytest.fixture
def good() -> str:
    return GOOD


@pytest.fixture
def refused():
    """Spoil the good file: replace `old` by `new`; answer (line the change is in, problems found)."""

    def spoil(old: str, new: str) -> tuple[int, list]:
        assert GOOD.count(old) == 1, f"{old!r} must be there once"
        line = GOOD[: GOOD.index(old)].count("\n") + 1
        with pytest.raises(ProcedureError) as caught:
            compile_text(GOOD.replace(old, new), "small.yaml")
        return line, caught.value.problems

    return spoil


@pytest.fixture
def wide_with():
    """The wide file compiled, with one thing in it replaced by another."""

    def make(old: str = "", new: str = "") -> dict:
        assert not old or WIDE.count(old) == 1, f"{old!r} must be there once"
        return compile_text(WIDE.replace(old, new) if old else WIDE, "wide.yaml", TABLES)

    return make


@pytest.fixture
def wide_refused(wide_with):
    """As `wide_with`, but it must be refused: (line the change is in, problems found)."""

    def spoil(old: str, new: str) -> tuple[int, list]:
        with pytest.raises(ProcedureError) as caught:
            wide_with(old, new)
        return WIDE[: WIDE.index(old)].count("\n") + 1, caught.value.problems

    return spoil
