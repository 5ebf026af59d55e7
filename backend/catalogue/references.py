"""Names that refer to other things must exist, and no two things of one kind share a name."""
from __future__ import annotations

from collections.abc import Container
from difflib import get_close_matches

from .errors import Problems
from .yaml_lines import Lined, LinedList


def check_references(proc: Lined, problems: Problems) -> None:
    """Every name in the file that refers to something refers to something that is there."""
    _check_unique(proc, problems)
    for table in ("points", "fits", "slots"):
        for row in proc[table].values():
            _refers(row, "group", proc["groups"], "group", problems)
    for row in proc["fits"].values():
        _refers(row, "limit", set(proc["limits"]) | set(proc["shop"]), "limit", problems)
    for slot in proc["slots"].values():
        _refers(slot, "part", proc["parts"], "part", problems)
        _refers(slot, "disturbs", _can_be_disturbed(proc), "point or step", problems)
    for step in proc["steps"]:
        _check_step(step, proc, problems)


def _check_unique(proc: Lined, problems: Problems) -> None:
    _twice(proc["phases"], "phase", problems)
    _twice(proc["steps"], "step", problems)
    for name, group in proc["groups"].items():
        _twice(group["stations"], f"station of {name}", problems)
    for step in proc["steps"]:
        _twice(step["confirms"], f"item of {step['id']}", problems)
        if step["torque"]:
            _twice(step["torque"]["fasteners"], f"fastener of {step['id']}", problems)
        if step["id"] in proc["points"]:
            problems.add(step.line, f"'{step['id']}' is both a step and a point: give one another name.")


def _twice(rows: LinedList, what: str, problems: Problems) -> None:
    seen: dict[str, int] = {}
    for row in rows:
        if row["id"] in seen:
            problems.add(row.line, f"There are two of the {what} '{row['id']}'; the other is in line {seen[row['id']]}.")
        seen.setdefault(row["id"], row.line)


def _check_step(step: Lined, proc: Lined, problems: Problems) -> None:
    known = {
        "phase": ({p["id"] for p in proc["phases"]}, "phase"), "after": (_step_ids(proc), "step"),
        "gates": (proc["fits"], "fit"), "works_out": (proc["fits"], "fit"), "reads": (proc["points"], "point"),
        "may_read": (proc["points"], "point"), "may_measure": (proc["slots"], "slot"),
        "disturbs": (_can_be_disturbed(proc), "point or step"),
    }
    for field, (there, what) in known.items():
        _refers(step, field, there, what, problems)
    if not (step["confirms"] or step["reads"] or step["torque"]):
        problems.add(step.line, f"'{step['id']}' has nothing to do: it would be done before it was begun. "
                                "Give it something to confirm, read or torque.")
    if step["corrects"]:
        _check_corrects(step["corrects"], proc, problems)
    if step["torque"]:
        _check_torque(step["torque"], step["id"], proc, problems)


def _check_corrects(corrects: Lined, proc: Lined, problems: Problems) -> None:
    known = {"fit": (proc["fits"], "fit"), "level": (proc["fits"], "fit"), "bare": (proc["points"], "point"),
             "slots": (proc["slots"], "slot"), "slot": (proc["slots"], "slot")}
    for field, (there, what) in known.items():
        _refers(corrects, field, there, what, problems)
    needed, other = ("slots", "slot") if corrects["method"] == "shells" else ("slot", "slots")
    if not corrects[needed] or corrects[other]:
        problems.add(corrects.line, f"A correction by {corrects['method']} needs '{needed}', and no '{other}'.")


def _check_torque(torque: Lined, step: str, proc: Lined, problems: Problems) -> None:
    _refers(torque, "group", proc["groups"], "group", problems)
    group = proc["groups"].get(torque["group"])
    stations = {s["id"] for s in group["stations"]} if group else set()
    if not torque["fasteners"]:
        problems.add(torque.line, f"The torque of '{step}' lists no fasteners.")
    for fastener in torque["fasteners"]:
        if fastener["station"] and fastener["station"] not in stations:
            problems.add(fastener.line, f"Fastener '{fastener['id']}' of '{step}' is at station '{fastener['station']}', "
                                        "which the torque's group does not have.")


def _refers(row: Lined, field: str, there: Container[str], what: str, problems: Problems) -> None:
    names = row[field]
    for name in names if isinstance(names, list) else [names]:
        if name and name not in there:
            near = get_close_matches(name, list(there), 1)  # type: ignore[call-overload]
            hint = f" Did you mean '{near[0]}'?" if near else ""
            problems.add(row.lines.get(field, row.line), f"'{field}' names the {what} '{name}', which is not there.{hint}")


def _step_ids(proc: Lined) -> list[str]:
    return [step["id"] for step in proc["steps"]]


def _can_be_disturbed(proc: Lined) -> list[str]:
    return list(proc["points"]) + _step_ids(proc)
