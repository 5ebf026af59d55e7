"""What a disturbance reaches.

Law: work recorded by somebody who did not know of a disturbance cannot be relied on, whatever the order of arrival.
A target is a point (`main_bore`), a spot (`main_bore@3`), a step (`step:crank_in`) or a step at a station (`step:caps@3`).
"""
from __future__ import annotations

from .events import knew, spot_of


def step_targets(step: str, station: str) -> list[str]:
    """The names under which a tick or pull of this step (at this station) can be disturbed."""
    return ["step:" + step, "step:" + step + "@" + station] if station else ["step:" + step]


def slot_targets(procedure: dict, slot_name: str, station: str) -> list[str]:
    """What changing the parts of a slot disturbs: the same station only, where slot and target share a group."""
    slot = procedure["slots"][slot_name]
    targets = []
    for point in slot["disturbs"]["points"]:
        same = slot["group"] and procedure["points"][point]["group"] == slot["group"]
        targets.append(spot_of(point, station) if same else point)
    for step in procedure["steps"]:
        if step["id"] in slot["disturbs"]["steps"]:
            targets = targets + _step_reach(procedure, step, slot, station)
    return targets


def _step_reach(procedure: dict, step: dict, slot: dict, station: str) -> list[str]:
    torque = step["torque"]
    if torque and slot["group"] and torque["group"] == slot["group"]:
        targets = ["step:" + step["id"] + "@" + station]
    else:
        targets = ["step:" + step["id"]]
    for point in step["reads"]:
        same = slot["group"] and procedure["points"][point]["group"] == slot["group"]
        targets.append(spot_of(point, station) if same else point)
    return targets


class Disturbances:
    """Every disturbance so far, by target."""

    def __init__(self) -> None:
        self.by_target: dict[str, list[dict]] = {}

    def note(self, event: dict, targets: list[str]) -> None:
        for target in targets:
            self.by_target.setdefault(target, []).append(event)

    def unknown_to(self, event: dict, targets: list[str]) -> dict | None:
        """The first disturbance of any target that the author of `event` had not seen, or None."""
        for target in targets:
            for name in (target, target.partition("@")[0]):
                for other in self.by_target.get(name, []):
                    if not knew(event, other):
                        return other
        return None
