"""Torque marks missing from a sequence that was begun, and pulls that came before their turn."""
from __future__ import annotations

from ..events import order_key
from ..order import pull_key, statuses
from ..view.lens import Lens, listed
from .finding import LOOK, finding

_WHY = "A fastener that missed a pass clamps less than its neighbours, and nobody can see it."


def findings(lens: Lens) -> list[dict]:
    out = []
    for row in statuses(lens.build):
        step = lens.build.steps[row["id"]]
        if step["torque"] and _begun(row):
            out = out + _missing(step, row) + _before_turn(lens.build, step)
    return out


def _begun(row: dict) -> bool:
    return any([w["kind"] == "pull" and w["state"] != "not_read" for w in row["work"]])


def _missing(step: dict, row: dict) -> list[dict]:
    out = []
    for i in range(len(step["torque"]["passes"])):
        prefix = step["id"] + "/" + str(i + 1) + "/"
        left = [w["key"].split("/")[2] for w in row["work"] if w["kind"] == "pull" and w["state"] != "read" and w["key"].startswith(prefix)]
        if left:
            out.append(finding("torque_marks", LOOK, "“" + step["title"] + "”, pass " + str(i + 1) + ": no mark for " + listed(left) + ".",
                               _WHY, "Pull them in sequence and mark each.", step["id"]))
    return out


def _before_turn(build, step: dict) -> list[dict]:
    """Pulls of a later pass made before the pass before it was complete."""
    out = []
    finished = None
    for i in range(len(step["torque"]["passes"])):
        keys = [pull_key(step["id"], i + 1, f["id"]) for f in step["torque"]["fasteners"]]
        first = [build.pulls[k][0]["event"] for k in keys if build.pulls.get(k)]
        early = [e["body"]["fastener"] for e in first if finished is not None and order_key(e) < finished]
        if early:
            out.append(finding("torque_marks", LOOK, "“" + step["title"] + "”, pass " + str(i + 1) + ": " + listed(early)
                               + " came before pass " + str(i) + " was complete.", _WHY,
                               "Loosen this set and go through the passes again in sequence.", step["id"]))
        finished = max([order_key(e) for e in first]) if first else None
    return out
