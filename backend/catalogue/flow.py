"""Whether the work can be done in the order given.

Law: no step waits for itself, and no step is held by something that is read only later.
"""
from __future__ import annotations

from . import order
from .errors import Problems
from .yaml_lines import Lined, LinedList


def put_in_order(proc: Lined, limits: Lined, problems: Problems) -> None:
    """Sorts the steps so that each follows what it comes after. A circle is a problem, named in words."""
    by_id = {step["id"]: step for step in proc["steps"]}
    before = {name: list(step["after"]) for name, step in by_id.items()}
    circle = order.circle(before)
    if circle:
        step = by_id[circle[0]]
        problems.add(step.lines["after"], f"These steps go in a circle: {order.in_words(circle, 'waits for')}.")
    problems.stop_if_any()
    proc["steps"] = LinedList(by_id[name] for name in order.in_order(before))
    _check_readings(proc, limits, before, problems)


def _check_readings(proc: Lined, limits: Lined, before: dict[str, list[str]], problems: Problems) -> None:
    read_at = _read_at(proc, problems)
    for step in proc["steps"]:
        earlier = order.all_before(step["id"], before)
        for fit in step["gates"]:
            _check_fit(proc, step, "gates", fit, earlier, read_at, problems)
            _check_limit(proc, limits, step, fit, earlier, read_at, problems)
        for fit in step["works_out"]:
            _check_fit(proc, step, "works_out", fit, [*earlier, step["id"]], read_at, problems)


def _read_at(proc: Lined, problems: Problems) -> dict[str, str]:
    """The step each point is read at. A point read at two steps is a problem: a reading says only its point."""
    out: dict[str, str] = {}
    for step in proc["steps"]:
        for field in ("reads", "may_read"):
            for point in step[field]:
                if point in out:
                    problems.add(step.lines[field], f"'{point}' is read at '{step['id']}' and at '{out[point]}': "
                                                    "a point is read at one step.")
                out.setdefault(point, step["id"])
    return out


def _check_fit(proc: Lined, step: Lined, field: str, fit: str, earlier: list[str], read_at: dict[str, str],
               problems: Problems) -> None:
    for point in proc["fits"][fit]["points"]:
        if read_at.get(point) not in earlier:
            where = f"it is read at '{read_at[point]}'" if point in read_at else "it is read nowhere"
            needs = "is held by" if field == "gates" else "works out"
            problems.add(step.lines[field], f"'{step['id']}' {needs} '{fit}', which needs '{point}' before that; {where}.")
    measured = {slot for one in proc["steps"] if one["id"] in earlier for slot in one["may_measure"]}
    for slot in proc["fits"][fit]["sizes"]:
        if slot not in measured:
            problems.add(step.lines[field], f"'{step['id']}' needs the size of what is in '{slot}' for '{fit}': "
                                            "put the slot in 'may_measure' of this step or of one before it.")
    for choice in proc["fits"][fit]["choices"]:
        _check_choice(proc, step, field, fit, choice, earlier, problems)


def _check_choice(proc: Lined, step: Lined, field: str, fit: str, choice: str, earlier: list[str], problems: Problems) -> None:
    asked = [one["id"] for one in proc["steps"] if choice in one["asks"]]
    if not set(asked) & set(earlier):
        where = f"it is asked for at '{asked[0]}'" if asked else "it is asked for nowhere"
        problems.add(step.lines[field], f"'{step['id']}' needs the choice '{choice}' for '{fit}' before that; {where}.")


def _check_limit(proc: Lined, limits: Lined, step: Lined, fit: str, earlier: list[str], read_at: dict[str, str],
                 problems: Problems) -> None:
    """A gate whose limit goes by a size, or by a choice, that comes only later would never open in time."""
    for row in limits[proc["fits"][fit]["limit"]] if proc["fits"][fit]["limit"] else []:
        for choice in row["when"]:
            _check_choice(proc, step, "gates", fit, choice, earlier, problems)
        name = row["per"]["name"] if row["per"] else ""
        points = [name] if name in proc["points"] else proc["fits"][name]["points"] if name else []
        for point in points:
            if read_at.get(point) not in earlier:
                problems.add(step.lines["gates"], f"'{step['id']}' is held by '{fit}', whose limit goes by '{name}', which needs "
                                                  f"'{point}' before that.")
