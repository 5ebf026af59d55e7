"""One step, ready for its screen."""
from __future__ import annotations

from ..fits import fit_everywhere
from ..order import corrected_fits, statuses
from .entries import entries, first_open, first_wanted
from .fit_view import amount, fit_view
from .holds import holds, why_waiting
from .lens import Lens
from .offers import offers
from .step_parts import kinds, shelf, slot_views
from .torque_view import torque_view


def step_view(lens: Lens, step_id: str) -> dict:
    """StepView of types.ts. KeyError when the procedure has no such step."""
    rows = statuses(lens.build)
    index = [i for i in range(len(rows)) if rows[i]["id"] == step_id]
    if not index:
        raise KeyError(step_id)
    row, step = rows[index[0]], lens.build.steps[step_id]
    work = entries(lens, step)
    at = first_open(work)
    if at is None:
        at = first_wanted(lens, step, work)
    fits = [fit for name in step["works_out"] for fit in fit_everywhere(lens.build, name)]
    view = _words(lens, step, row)
    view.update({
        "entries": work, "at": at, "plan": _plan(lens, step, work, at, fits), "fits": [fit_view(lens, f) for f in fits],
        "torque": torque_view(lens, step), "holds": [] if row["waits"] else holds(lens, step, row["closed"]),
        "offers": _offers(lens, step, row), "slots": slot_views(lens, step), "shelf": shelf(lens, step), "kinds": kinds(lens, step),
        "next": rows[index[0] + 1]["id"] if index[0] + 1 < len(rows) else None,
    })
    return view


def _words(lens: Lens, step: dict, row: dict) -> dict:
    phase = [p["title"] for p in lens.procedure["phases"] if p["id"] == step["phase"]]
    made = any([w["state"] != "not_read" for w in row["work"]])
    return {"id": step["id"], "title": step["title"], "phase": step["phase"], "phase_title": phase[0] if phase else "",
            "status": row["status"], "why": why_waiting(lens, row), "do": step["do"], "reason": step["why"], "source": step.get("source") or "",
            "cautions": step["cautions"], "disturbs": _disturbs(lens, step),
            "undo": {"type": "step.undone", "body": {"step": step["id"]}} if made else None}


def _disturbs(lens: Lens, step: dict) -> list[str]:
    titles = [lens.procedure["points"][name]["title"] for name in step["disturbs"]["points"]]
    return titles + [s["title"] for s in lens.procedure["steps"] if s["id"] in step["disturbs"]["steps"]]


def _plan(lens: Lens, step: dict, work: list[dict], at: int | None, fits: list[dict]) -> dict | None:
    """The stations this step reads at, from above."""
    groups = _groups_read(lens, step)
    if not groups:
        return None
    now = work[at]["station"] if at is not None else ""
    stations = [_plan_station(lens, s, [e for e in work if e["station"] == s["id"] and not e["optional"]],
                              [f for f in fits if f["station"] == s["id"]], now)
                for group in groups for s in lens.procedure["groups"][group]["stations"]]
    return {"group": groups[0], "stations": stations}


def _groups_read(lens: Lens, step: dict) -> list[str]:
    """The groups this step reads at, as many as can be told apart by the names of their stations."""
    out, seen = [], []
    for name in step["reads"]:
        group = lens.procedure["points"][name]["group"]
        ids = [s["id"] for s in lens.procedure["groups"][group]["stations"]] if group else []
        if group and group not in out and not [i for i in ids if i in seen]:
            out.append(group)
            seen = seen + ids
    return out


def _plan_station(lens: Lens, station: dict, work: list[dict], fits: list[dict], now: str) -> dict:
    states = [e["state"] for e in work]
    worked = [f for f in fits if f["value"] is not None]
    state = "open"
    if any([f["state"] in ("under", "over") for f in worked]):
        state = "out"
    elif "stale" in states:
        state = "stale"
    elif station["id"] == now:
        state = "now"
    elif states and all([s == "made" for s in states]):
        state = "done"
    figure = amount(lens, worked[0]["fit"], worked[0]["value"]) if worked else ""
    return {"id": station["id"], "x": station["x"], "y": station["y"], "state": state, "figure": figure}


def _offers(lens: Lens, step: dict, row: dict) -> list[dict]:
    """What would correct the fits of this step, and those that hold it."""
    out = []
    closed = [f["fit"] for f in row["closed"]]
    for other in lens.procedure["steps"]:
        fits = corrected_fits(other)
        if fits and (other["id"] == step["id"] or any([name in closed for name in fits])):
            out = out + offers(lens, other)
    return out
