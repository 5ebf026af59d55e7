"""A build at a glance: phases, steps, what is next, what must be done again, what needs a person's word."""
from __future__ import annotations

from ..fits import spot_state
from ..order import next_step, statuses
from ..sorting import merge_sort
from ..show import scale_of
from .concession_view import concession_view
from .amount import reading_figure
from .holds import again_words, why_waiting
from .lens import Lens


def overview(lens: Lens) -> dict:
    """Overview of types.ts."""
    rows = statuses(lens.build)
    info, procedure = lens.build.info, lens.procedure
    return {
        "build": {"id": info["id"], "name": info["name"], "procedure": procedure["procedure"], "revision": procedure["revision"],
                  "title": procedure["title"], "duty": info["duty"], "note": info["note"]},
        "next": next_step(lens.build, rows),
        "phases": [_phase(lens, phase, rows) for phase in procedure["phases"]],
        "steps": [{"id": row["id"], "title": lens.build.steps[row["id"]]["title"], "phase": lens.build.steps[row["id"]]["phase"],
                   "status": row["status"], "why": why_waiting(lens, row)} for row in rows],
        "again": [{"step": row["id"], "title": lens.build.steps[row["id"]]["title"], "what": again_words(lens, row)}
                  for row in rows if row["status"] == "stale"],
        "contrary": contrary(lens),
        "concessions": [concession_view(lens, c) for c in lens.build.concessions],
        "update_needed": lens.build.unknown,
    }


def _phase(lens: Lens, phase: dict, rows: list[dict]) -> dict:
    own = [row["status"] for row in rows if lens.build.steps[row["id"]]["phase"] == phase["id"]]
    done = len([s for s in own if s == "done"])
    return {"id": phase["id"], "title": phase["title"], "done": done, "total": len(own), "status": _phase_status(own, done)}


def _phase_status(statuses_: list[str], done: int) -> str:
    for status in ("held", "stale"):
        if status in statuses_:
            return status
    if done == len(statuses_):
        return "done"
    if done or "in_work" in statuses_:
        return "in_work"
    return "ready" if "ready" in statuses_ else "waiting"


def contrary(lens: Lens) -> list[dict]:
    """Every spot with readings by people who did not know of each other's."""
    out = []
    for spot in merge_sort(list(lens.build.heads.keys()), lambda k: k):
        if spot_state(lens.build, spot) == "contrary":
            name, _, station = spot.partition("@")
            fresh = [h for h in lens.build.heads[spot] if h["stale"] is None]
            out.append({"spot": spot, "title": lens.spot_title("points", name, station), "step": step_reading(lens.procedure, name),
                        "readings": [_contrary_reading(lens, spot, name, h) for h in fresh]})
    return out


def _contrary_reading(lens: Lens, spot: str, name: str, reading: dict) -> dict:
    point = lens.procedure["points"][name]
    label = lens.shown.label(lens.shown.unit(point["dimension"], scale_of(point)))
    return {"event": reading["id"], "shown": reading_figure(lens, point, reading) + " " + label,
            "who": lens.name(reading["event"].get("who")), "at": reading["event"]["at"],
            "settle": {"type": "contrary.settled", "body": {"spot": spot, "keep": reading["id"], "why": ""}}}


def step_reading(procedure: dict, point: str) -> str:
    """The step in which a point is read."""
    for step in procedure["steps"]:
        if point in step["reads"] or point in step["may_read"]:
            return step["id"]
    return ""


