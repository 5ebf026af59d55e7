"""Torque marks missing from a sequence that was begun, and pulls that came before their turn."""
from __future__ import annotations

from ..events import order_key
from ..order import pull_key, statuses
from ..view.lens import Lens
from .finding import LOOK, finding
from .misfit import quoted


def findings(lens: Lens) -> list[dict]:
    out = []
    for row in statuses(lens.build):
        step = lens.build.steps[row["id"]]
        if step["torque"] and _begun(row):
            out = out + _missing(lens, step, row) + _before_turn(lens, step)
    return out


def _begun(row: dict) -> bool:
    return any([w["kind"] == "pull" and w["state"] != "not_read" for w in row["work"]])


def _missing(lens: Lens, step: dict, row: dict) -> list[dict]:
    out = []
    for i in range(len(step["torque"]["passes"])):
        prefix = step["id"] + "/" + str(i + 1) + "/"
        left = [w["key"].split("/")[2] for w in row["work"] if w["kind"] == "pull" and w["state"] != "read" and w["key"].startswith(prefix)]
        if left:
            says = lens.say("no_marks", step=quoted(lens, step), number=i + 1, bolts=lens.listed(left))
            out.append(finding("torque_marks", LOOK, says, lens.say("why_marks"), lens.say("cure_marks"), step["id"]))
    return out


def _before_turn(lens: Lens, step: dict) -> list[dict]:
    """Pulls of a later pass made before the pass before it was complete."""
    out = []
    finished = None
    for i in range(len(step["torque"]["passes"])):
        keys = [pull_key(step["id"], i + 1, f["id"]) for f in step["torque"]["fasteners"]]
        first = [lens.build.pulls[k][0]["event"] for k in keys if lens.build.pulls.get(k)]
        early = [e["body"]["fastener"] for e in first if finished is not None and order_key(e) < finished]
        if early:
            says = lens.say("before_turn", step=quoted(lens, step), number=i + 1, bolts=lens.listed(early), before=i)
            out.append(finding("torque_marks", LOOK, says, lens.say("why_marks"), lens.say("cure_turn"), step["id"]))
        finished = max([order_key(e) for e in first]) if first else None
    return out
