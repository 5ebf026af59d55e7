"""The sixteen goals in one table: the figure reached, the goal, and whether it is met or by how much it is missed.

Reads what the checks and benchmarks left in build/. Run it with `make goals`.
"""

from __future__ import annotations

import json
import sys

from tests.bench.report import BUILD

from .record import holds

GOALS = {
    1: "controls fit a thumb", 2: "keypad without gaps", 3: "the right key", 4: "under the thumb", 5: "few taps", 6: "shown is stored",
    7: "gauges on a cable", 8: "tap to verdict", 9: "nothing moves", 10: "offline start and weight", 11: "legible", 12: "for everybody",
    13: "interrupted pulls", 14: "nothing lost", 15: "inch and metric", 16: "unsent in sight",
}  # fmt: skip
BENCHES = {8: ["tap_to_verdict"], 10: ["offline_start", "page_weight"]}


def rows_of(goal: int) -> list[dict]:
    found = []
    for name in BENCHES.get(goal, []) + [f"goal_{goal:02}"]:
        path = BUILD / f"{name}.json"
        found += [row for row in json.loads(path.read_text()) if row["goal"]] if path.exists() else []
    return found


def verdict(row: dict) -> str:
    if holds(row["value"], row["goal"]):
        return "met"
    bound = float(row["goal"].split()[1])
    return f"missed by {abs(row['value'] - bound):g} {row['unit']}"


def main() -> int:
    missed = 0
    for goal, title in GOALS.items():
        rows = rows_of(goal)
        whole = "not measured" if not rows else "met" if all(verdict(row) == "met" for row in rows) else "missed"
        print(f"{goal:>2}  {title}: {whole}")
        missed += not rows
        for row in rows:
            said = verdict(row)
            missed += said != "met"
            print(f"      {row['name']:<84} {row['value']:>10,.4g} {row['unit']:<13} {row['goal']:<10} {said}")
    print(f"\n{missed} missed or not measured." if missed else "\nAll sixteen goals are met.")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
