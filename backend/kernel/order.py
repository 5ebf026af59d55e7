"""What is next, what waits, and why.

Law: a step is done only when its own work is complete and fresh, the steps before it are done, and its gates are open.
Held: the steps before it are done, but a gate is closed. Stale: something it relied on has been disturbed since.
"""
from __future__ import annotations

from .events import spot_of
from .fits import fit_everywhere, spot_state
from .formula import CONTRARY, NOT_READ, READ, STALE
from .verdict import OVER, UNDER

WAITING, READY, IN_WORK, HELD, DONE = "waiting", "ready", "in_work", "held", "done"


def tick_state(entries: list[dict]) -> str:
    """not_read, stale or read for a tick or a pull."""
    if not entries:
        return NOT_READ
    return READ if any([e["stale"] is None for e in entries]) else STALE


def pull_key(step: str, number: int, fastener: str) -> str:
    return step + "/" + str(number) + "/" + fastener


def work_states(build, step: dict) -> list[dict]:
    """Every required piece of work of a step: `{kind, key, state}`, in the order to do it."""
    return build.once(("work", step["id"]), lambda: _work_states(build, step))


def _work_states(build, step: dict) -> list[dict]:
    out = []
    for name in step.get("asks", []):
        out.append({"kind": "choice", "key": name, "state": READ if name in build.choices else NOT_READ})
    for item in step["confirms"]:
        key = step["id"] + "/" + item["id"]
        out.append({"kind": "confirm", "key": key, "state": tick_state(build.ticks.get(key, []))})
    for name in step["reads"]:
        for station in build.stations(build.procedure["points"][name]["group"]):
            spot = spot_of(name, station)
            out.append({"kind": "reading", "key": spot, "state": spot_state(build, spot)})
    if step["torque"]:
        for i in range(len(step["torque"]["passes"])):
            for fastener in step["torque"]["fasteners"]:
                key = pull_key(step["id"], i + 1, fastener["id"])
                out.append({"kind": "pull", "key": key, "state": tick_state(build.pulls.get(key, []))})
    return out


def closed_gates(build, step: dict) -> list[dict]:
    """Fits that keep a step from going on, each at the stations where it is not open."""
    return build.once(("closed", step["id"]), lambda: _closed_gates(build, step))


def _closed_gates(build, step: dict) -> list[dict]:
    return [fit for name in step["gates"] for fit in fit_everywhere(build, name) if not fit["open"]]


def statuses(build) -> list[dict]:
    """`{id, status, waits: [step ids], closed: [fits], work: [...]}` for every step, in procedure order."""
    return build.once("statuses", lambda: _statuses(build))


def _statuses(build) -> list[dict]:
    out = []
    done: dict[str, bool] = {}
    for step in build.procedure["steps"]:
        work = work_states(build, step)
        waits = [name for name in step["after"] if not done.get(name)]
        closed = closed_gates(build, step)
        status = _status([w["state"] for w in work], waits, closed)
        done[step["id"]] = status == DONE
        out.append({"id": step["id"], "status": status, "waits": waits, "closed": closed, "work": work})
    return out


def _status(states: list[str], waits: list[str], closed: list[dict]) -> str:
    if STALE in states:
        return "stale"
    if waits:
        return WAITING
    if closed:
        return HELD
    if all([s == READ for s in states]):
        return DONE
    return IN_WORK if any([s in (READ, CONTRARY) for s in states]) else READY


def next_step(build, rows: list[dict]) -> str | None:
    """The step to go to: the first, in procedure order, that is not done and waits for none, or that has a misfit to correct."""
    for row in rows:
        if row["status"] != DONE and not row["waits"]:
            return row["id"]
        if row["status"] == DONE and misfits(build, build.steps[row["id"]]):
            return row["id"]
    return None


def misfits(build, step: dict) -> list[dict]:
    """What this step can correct and is out of its limit; empty where the step corrects nothing."""
    return [fit for name in corrected_fits(step) for fit in fit_everywhere(build, name)
            if fit["state"] in (UNDER, OVER) and not fit["open"]]


def corrected_fits(step: dict) -> list[str]:
    """The fits that the corrections of a step are about, each once."""
    out: list[str] = []
    for record in corrections_of(step):
        for name in record.get("fits") or [record["fit"]]:
            if name not in out:
                out.append(name)
    return out


def corrections_of(step: dict) -> list[dict]:
    """The correction records of a step."""
    corrects = step["corrects"] or []
    return corrects if isinstance(corrects, list) else [corrects]
