"""What a disturbance reaches in the end.

Law: disturbing a step also disturbs what that step disturbs, at any distance. A step does not disturb itself.
"""
from __future__ import annotations

from collections.abc import Sequence

from . import order
from .yaml_lines import Lined, LinedList


def set_reach(proc: Lined) -> None:
    """Turns `disturbs` of steps and slots into {"points": [...], "steps": [...]}, in the order of the file."""
    steps: LinedList = proc["steps"]
    direct = {step["id"]: list(step["disturbs"]) for step in steps}
    for step in steps:
        step["disturbs"] = _reach(step["disturbs"], direct, proc, step["id"])
    for slot in proc["slots"].values():
        slot["disturbs"] = _reach(slot["disturbs"], direct, proc, "")


def _reach(names: Sequence[str], direct: dict[str, list[str]], proc: Lined, own: str) -> dict[str, list[str]]:
    found = set(names)
    for name in names:
        found.update(order.all_before(name, direct))
    found.discard(own)
    return {
        "points": [point for point in proc["points"] if point in found],
        "steps": [step["id"] for step in proc["steps"] if step["id"] in found],
    }
