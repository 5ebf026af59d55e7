"""Names that refer to other things must exist, and no two things of one kind share a name."""
from __future__ import annotations

from . import corrects
from .errors import Problems
from .names import refers
from .yaml_lines import Lined, LinedList


def check_references(proc: Lined, problems: Problems) -> None:
    """Every name in the file that refers to something refers to something that is there."""
    _check_unique(proc, problems)
    for table in ("points", "fits", "slots"):
        for row in proc[table].values():
            refers(row, "group", proc["groups"], "group", problems)
    for row in proc["fits"].values():
        refers(row, "limit", set(proc["limits"]) | set(proc["shop"]), "limit", problems)
    _check_limits(proc, problems)
    for slot in proc["slots"].values():
        refers(slot, "part", proc["parts"], "part", problems)
        refers(slot, "disturbs", _can_be_disturbed(proc), "point or step", problems)
    for step in proc["steps"]:
        _check_step(step, proc, problems)


def _check_limits(proc: Lined, problems: Problems) -> None:
    figures = set(proc["points"]) | set(proc["fits"])
    for given in [*proc["limits"].values(), *proc["shop"].values()]:
        for row in given if isinstance(given, list) else [given]:
            refers(row, "per", figures, "point or fit", problems)


def _check_unique(proc: Lined, problems: Problems) -> None:
    _twice(proc["phases"], "phase", problems)
    _twice(proc["steps"], "step", problems)
    for table in ("points", "fits"):
        if "pi" in proc[table]:
            problems.add(proc[table].lines["pi"], "'pi' is a number in every formula: give this another name.")
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
        "may_read": (proc["points"], "point"), "may_measure": (proc["slots"], "slot"), "asks": (proc["choices"], "choice"),
        "disturbs": (_can_be_disturbed(proc), "point or step"),
    }
    for field, (there, what) in known.items():
        refers(step, field, there, what, problems)
    if not (step["confirms"] or step["reads"] or step["torque"] or step["asks"]):
        problems.add(step.line, f"'{step['id']}' has nothing to do: it would be done before it was begun. "
                                "Give it something to confirm, read, torque or ask.")
    for item in step["confirms"][:-1]:
        if item["last"]:
            problems.add(item.line, f"'{item['id']}' of '{step['id']}' is marked 'last', so it must stand last in its list.")
    for one in step["corrects"]:
        corrects.check_names(one, proc, problems)
    if step["torque"]:
        _check_torque(step["torque"], step["id"], proc, problems)


def _check_torque(torque: Lined, step: str, proc: Lined, problems: Problems) -> None:
    refers(torque, "group", proc["groups"], "group", problems)
    group = proc["groups"].get(torque["group"])
    stations = {s["id"] for s in group["stations"]} if group else set()
    if not torque["fasteners"]:
        problems.add(torque.line, f"The torque of '{step}' lists no fasteners.")
    for fastener in torque["fasteners"]:
        if fastener["station"] and fastener["station"] not in stations:
            problems.add(fastener.line, f"Fastener '{fastener['id']}' of '{step}' is at station '{fastener['station']}', "
                                        "which the torque's group does not have.")


def _step_ids(proc: Lined) -> list[str]:
    return [step["id"] for step in proc["steps"]]


def _can_be_disturbed(proc: Lined) -> list[str]:
    return list(proc["points"]) + _step_ids(proc)
