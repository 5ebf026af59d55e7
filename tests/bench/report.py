"""How every benchmark reports: a table for people and build/<name>.json for machines.

A row is (name, value, unit, goal); the goal is "" or a bound such as "<= 400" or ">= 0.2".
    report("fold_rate", [row("fold per event at 10,000", 0.02, "ms", ""), …])
"""

import json
from pathlib import Path

BUILD = Path(__file__).resolve().parents[2] / "build"


def row(name: str, value: float, unit: str, goal: str = "") -> dict:
    if goal and goal.split()[0] not in ("<=", ">="):
        raise ValueError(f"a goal is written like '<= 400', not {goal!r}")
    return {"name": name, "value": round(value, 4), "unit": unit, "goal": goal}


def report(name: str, rows: list[dict]) -> None:
    wide = max(len(r["name"]) for r in rows)
    for r in rows:
        print(f"  {r['name']:<{wide}}  {r['value']:>12,.4g} {r['unit']:<9} {r['goal']}")
    BUILD.mkdir(exist_ok=True)
    (BUILD / f"{name}.json").write_text(json.dumps(rows, indent=1) + "\n")
