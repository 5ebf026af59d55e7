"""Ticks, pulls of fasteners, and steps taken back."""
from __future__ import annotations

from ..disturb import step_targets
from ..sentence import Refused
from .common import disturb, entry_of, must_record, step_of


def confirm(build, event: dict, body: dict) -> None:
    must_record(event)
    step = step_of(build, body["step"])
    if body["item"] not in [c["id"] for c in step["confirms"]]:
        raise Refused("no_item", item=body["item"], step=step["title"])
    if not build.is_struck(event):
        key = body["step"] + "/" + body["item"]
        build.ticks.setdefault(key, []).append(entry_of(build, event, step_targets(body["step"], "")))


def pulled(build, event: dict, body: dict) -> None:
    must_record(event)
    step = step_of(build, body["step"])
    found = [f for f in (step["torque"] or {"fasteners": []})["fasteners"] if f["id"] == body["fastener"]]
    if not found or not 1 <= body["pass"] <= len(step["torque"]["passes"]):
        raise Refused("no_fastener", step=step["title"])
    if not build.is_struck(event):
        key = body["step"] + "/" + str(body["pass"]) + "/" + body["fastener"]
        build.pulls.setdefault(key, []).append(entry_of(build, event, step_targets(body["step"], found[0]["station"])))


def undone(build, event: dict, body: dict) -> None:
    must_record(event)
    step = step_of(build, body["step"])
    if not build.is_struck(event):
        targets = step_targets(step["id"], "") + step["reads"]
        for name in step["disturbs"]["points"]:
            targets.append(name)
        for name in step["disturbs"]["steps"]:
            targets = targets + step_targets(name, "") + build.steps[name]["reads"]
        disturb(build, event, targets)
