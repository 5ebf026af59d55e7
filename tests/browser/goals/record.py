"""Where a goal's figure goes: printed, and kept in build/ for the table that `make goals` prints."""

from __future__ import annotations

import json
import os

from tests.bench.report import BUILD, row

FULL = os.environ.get("HALFTHOU_GOALS") == "full"


def number(full: int, quick: int) -> int:
    """How often: as often as the goal says in `make goals`, a few times in `make test`."""
    return full if FULL else quick


def holds(value: float, goal: str) -> bool:
    sign, bound = goal.split()
    return value <= float(bound) if sign == "<=" else value >= float(bound)


def reached(goal: int, name: str, value: float, unit: str, bound: str) -> bool:
    """Note one figure of a goal; a figure of the same name takes the place of an older one. True when it is met."""
    found = row(name, value, unit, bound)
    met = holds(value, bound)
    print(f"  goal {goal:>2}: {name}: {value:g} {unit} ({bound}){'' if met else '  MISSED'}")
    _put(goal, name, found)
    return met


def finished(goal: int, check: str, passed: bool) -> None:
    """A check that broke off left no figure, or an old one: it stands in the table until it passes again."""
    name = f"{check} did not pass"
    _put(goal, name, None if passed else row(name, 1, "checks", "<= 0"))


def _put(goal: int, name: str, found: dict | None) -> None:
    path = BUILD / f"goal_{goal:02}.json"
    BUILD.mkdir(exist_ok=True)
    rows = json.loads(path.read_text()) if path.exists() else []
    rows = [r for r in rows if r["name"] != name] + ([found] if found else [])
    path.write_text(json.dumps(sorted(rows, key=lambda r: r["name"]), indent=1) + "\n")
