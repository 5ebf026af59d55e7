"""What the appliers of events share: who may record, which step is meant, what a disturbance makes stale."""
from __future__ import annotations

from ..events import event_id
from ..sentence import Refused

RECORDERS = ("owner", "builder", "apprentice", "")


def entry_of(build, event: dict, targets: list[str]) -> dict:
    return {"event": event, "id": event_id(event), "stale": build.disturbances.unknown_to(event, targets)}


def must_record(event: dict) -> None:
    if event.get("role", "") not in RECORDERS:
        raise Refused("not_a_recorder")


def step_of(build, name: str) -> dict:
    if name not in build.steps:
        raise Refused("no_step", name=name)
    return build.steps[name]


def disturb(build, event: dict, targets: list[str]) -> None:
    """Make stale whatever was recorded before at any of the targets."""
    build.disturbances.note(event, targets)
    hit = {name: True for name in targets}
    for spot in build.heads:
        if spot in hit or spot.partition("@")[0] in hit:
            _make_stale(build.heads[spot], event)
    for key in build.ticks:
        if "step:" + key.partition("/")[0] in hit:
            _make_stale(build.ticks[key], event)
    for key in build.pulls:
        if _pull_is_hit(build, key, hit):
            _make_stale(build.pulls[key], event)


def _pull_is_hit(build, key: str, hit: dict) -> bool:
    step = key.partition("/")[0]
    if "step:" + step in hit:
        return True
    fastener = key.split("/")[2]
    for f in build.steps[step]["torque"]["fasteners"]:
        if f["id"] == fastener:
            return "step:" + step + "@" + f["station"] in hit
    return False


def _make_stale(entries: list[dict], event: dict) -> None:
    for entry in entries:
        if entry["stale"] is None:
            entry["stale"] = event
