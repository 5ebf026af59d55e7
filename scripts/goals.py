"""Hold the figures that the benchmarks wrote in build/ against their goals; fails when one is missed."""

import json
import sys

from places import ROOT, say


def met(value: float, goal: str) -> bool:
    """A goal is written `<= 400`, `>= 0.2` or the like."""
    sign, number = goal.split()
    return value <= float(number) if sign == "<=" else value >= float(number)


def main() -> int:
    missed = 0
    for path in sorted((ROOT / "build").glob("*.json")):
        if path.stem.startswith("goal_"):
            continue  # those have a table of their own: `make goals`
        for row in json.loads(path.read_text()):
            if not row.get("goal"):
                continue
            good = met(row["value"], row["goal"])
            missed += not good
            say(f"{'met   ' if good else 'MISSED'}  {path.stem}: {row['name']} is {row['value']} {row['unit']}, goal {row['goal']}")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
