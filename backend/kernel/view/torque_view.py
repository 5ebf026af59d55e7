"""The torque plan: which fastener next, at what torque, and where to take up again after an interruption.

Law: pass by pass, in sequence; nothing skipped, nothing twice, each pass complete before the next.
"""
from __future__ import annotations

from ..events import order_key
from ..order import pull_key, tick_state
from .lens import Lens

PAUSE_MS = 60_000


def torque_view(lens: Lens, step: dict) -> dict | None:
    plan = step["torque"]
    if not plan:
        return None
    following = next_pull(lens.build, step)
    number = following[0] if following else len(plan["passes"])
    last = _last_pull(lens.build, step)
    return {
        "pass": number, "passes": len(plan["passes"]),
        "torque": pull_words(lens, plan, number), "other": _pull_beside(lens, plan, number), "by_angle": _by_angle(plan, number),
        "lubricant": plan["lubricant"],
        "next": {"fastener": following[1], "draft": pull_draft(step, following[0], following[1], False)} if following else None,
        "last": _last_view(lens, step, last),
        "fasteners": [_fastener(lens, step, f, number, following) for f in plan["fasteners"]],
        "cue": _cue(lens, last, following),
    }


def _by_angle(plan: dict, number: int) -> bool:
    return (plan.get("pass_kinds") or ["torque"] * number)[number - 1] == "angle"


def pull_words(lens: Lens, plan: dict, number: int) -> str:
    """What one pass asks for: `48 lbf·ft`, or `90° further`."""
    value = plan["passes"][number - 1]
    if not _by_angle(plan, number):
        return lens.shown.own(value, "torque", "fit")
    return lens.say("further", angle=lens.shown.figure(value, "deg", 0) + lens.shown.label("deg"))


def _pull_beside(lens: Lens, plan: dict, number: int) -> str:
    """The other unit of a torque; for an angle, that it starts where the last pass ended."""
    if _by_angle(plan, number):
        return lens.say("from_last_pass")
    return lens.shown.beside(plan["passes"][number - 1], "torque", "fit")[0]


def next_pull(build, step: dict) -> tuple[int, str] | None:
    """(pass, fastener) of the next pull, or None when every pass is complete and fresh."""
    for i in range(len(step["torque"]["passes"])):
        for fastener in step["torque"]["fasteners"]:
            if tick_state(build.pulls.get(pull_key(step["id"], i + 1, fastener["id"]), [])) != "read":
                return i + 1, fastener["id"]
    return None


def pull_draft(step: dict, number: int, fastener: str, again: bool) -> dict:
    return {"type": "torque.pulled", "body": {"step": step["id"], "pass": number, "fastener": fastener, "again": again}}


def _last_pull(build, step: dict) -> dict | None:
    found = None
    for i in range(len(step["torque"]["passes"])):
        for fastener in step["torque"]["fasteners"]:
            for pull in build.pulls.get(pull_key(step["id"], i + 1, fastener["id"]), []):
                if pull["stale"] is None and (found is None or order_key(pull["event"]) > order_key(found["event"])):
                    found = pull
    return found


def _last_view(lens: Lens, step: dict, last: dict | None) -> dict | None:
    if last is None:
        return None
    body = last["event"]["body"]
    return {"fastener": body["fastener"], "pass": body["pass"], "who": lens.name(last["event"].get("who")),
            "at": last["event"]["at"], "draft": pull_draft(step, body["pass"], body["fastener"], True)}


def _fastener(lens: Lens, step: dict, fastener: dict, number: int, following: tuple[int, str] | None) -> dict:
    pulls = lens.build.pulls.get(pull_key(step["id"], number, fastener["id"]), [])
    state = {"not_read": "open", "read": "pulled", "stale": "stale"}[tick_state(pulls)]
    if following and following[1] == fastener["id"]:
        state = "now"
    return {"id": fastener["id"], "x": fastener["x"], "y": fastener["y"], "station": fastener["station"],
            "note": fastener["note"], "state": state}


def _cue(lens: Lens, last: dict | None, following: tuple[int, str] | None) -> str:
    """After a pause in the middle: check the last one, then go on."""
    if last is None or following is None:
        return ""
    at = last["event"]["at"]
    if lens.now - at < PAUSE_MS or last["event"]["body"].get("again"):
        return ""
    fastener = last["event"]["body"]["fastener"]
    return lens.say("cue", last=fastener, ago=lens.ago(at), next=following[1])
