"""Limits: what a fit may be, by duty, by what was chosen, and by size.

Law: a row says low before aim before high in one dimension, its source and its date; every row can come to count; and each
limit has a row for every duty that any limit has.
"""
from __future__ import annotations

from . import units
from .errors import Problems
from .tables import Tables
from .unit_table import a
from .yaml_lines import Lined, LinedList

TABLE, SHOP = "table", "shop"
ENDS = ("low", "aim", "high")


def limits_of(proc: Lined, tables: Tables, problems: Problems) -> Lined:
    """Shop rows and table rows in one list a limit, each with its authority; figures on the grid, `dimension` kept aside."""
    out = Lined()
    out.lines = {}
    for part, authority in (("shop", SHOP), ("limits", TABLE)):
        for name, given in proc[part].items():
            rows = given if isinstance(given, LinedList) else _from_table(name, given, proc, tables, problems)
            out.setdefault(name, [])
            out.lines.setdefault(name, proc[part].lines[name])
            out[name].extend(_row(name, row, authority, proc, problems) for row in rows)
            _each_can_count(name, rows, problems)
    return out


def _from_table(name: str, given: Lined, proc: Lined, tables: Tables, problems: Problems) -> LinedList:
    """The rows of tables/limits.yaml, with the lines of the procedure. Rows for what this procedure does not ask are left out."""
    rows = LinedList()
    if given["table"] not in tables.limits:
        there = ", ".join(tables.limits) or "none"
        problems.add(given.lines.get("table", given.line), f"There is no limit '{given['table']}' in the tables. There are: {there}.")
    for row in tables.limits.get(given["table"], []):
        if not all(_can_be_chosen(proc, choice, option) for choice, option in row["when"].items()):
            continue
        by_size = given["per"] and all(row[end].dimension == "ratio" for end in ENDS if row[end])
        made = Lined(row, per=given["per"] if by_size else "")
        made.line, made.lines = given.line, given.lines
        rows.append(made)
    return rows


def _can_be_chosen(proc: Lined, choice: str, option: str) -> bool:
    return choice in proc["choices"] and option in [o["id"] for o in proc["choices"][choice]["options"]]


def _row(name: str, row: Lined, authority: str, proc: Lined, problems: Problems) -> Lined:
    given = [row[end] for end in ENDS if row[end]]
    found = sorted({q.dimension for q in given})
    if not row["low"] and not row["high"]:
        problems.add(row.line, f"A row of the limit '{name}' has neither 'low' nor 'high'.")
    if len(found) > 1:
        problems.add(row.line, f"A row of the limit '{name}' mixes {' and '.join(found)}.")
    elif any(one.value > next_.value for one, next_ in zip(given, given[1:], strict=False)):
        problems.add(row.line, f"A row of the limit '{name}' is out of order: {', '.join(q.text for q in given)}.")
    if row["per"] and found not in ([], ["ratio"]):
        problems.add(row.line, f"A row of the limit '{name}' goes by '{row['per']}', so its figures are ratios such as "
                               f"'0.001 in/in', not {a(found[0])}.")
    for choice, option in row["when"].items():
        if not _can_be_chosen(proc, choice, option):
            problems.add(row.line, f"A row of the limit '{name}' counts when '{choice}' is '{option}', which cannot be chosen.")
    return _compiled(row, authority, given[0].dimension if given else "", proc)


def _compiled(row: Lined, authority: str, dimension: str, proc: Lined) -> Lined:
    out = Lined(row, authority=authority, dimension=dimension, unit="" if row["per"] or not dimension else _unit(row))
    out.line, out.lines = row.line, row.lines
    for end in ENDS:
        out[end] = row[end].value if row[end] else None
    kind = "point" if row["per"] in proc["points"] else "fit"
    out["per"] = {"kind": kind, "name": row["per"]} if row["per"] else None
    out["plus_dimension"] = row["plus"].dimension if row["plus"] else ""
    out["plus"] = row["plus"].value if row["plus"] else 0
    return out


def _unit(row: Lined) -> str:
    return next(row[end].unit for end in ENDS if row[end])


def _each_can_count(name: str, rows: LinedList, problems: Problems) -> None:
    """The first row that fits counts, so a row behind one that fits whenever it does never would."""
    for at, row in enumerate(rows):
        for before in rows[:at]:
            if before["duty"] == row["duty"] and before["when"].items() <= row["when"].items():
                same = "has two rows" if before["when"] == row["when"] else "has a row that never counts, behind a wider one,"
                problems.add(row.line, f"The limit '{name}' {same} for the duty '{row['duty']}'.")
                break


def every_duty(limits: Lined, problems: Problems) -> None:
    """A build has one duty: each limit must have a row for every duty that any limit has."""
    duties = sorted({row["duty"] for rows in limits.values() for row in rows})
    for name, rows in limits.items():
        for duty in duties:
            if duty not in [row["duty"] for row in rows]:
                problems.add(limits.lines[name], f"The limit '{name}' has no row for the duty '{duty}', which others have.")


def match_fits(proc: Lined, limits: Lined, problems: Problems) -> None:
    """A fit and its limit are of one dimension; what a row goes by is of the fit's dimension and stands at its stations."""
    for name, fit in proc["fits"].items():
        for row in limits[fit["limit"]] if fit["limit"] else []:
            if row["per"]:
                _match_per(name, fit, row, proc, problems)
            elif row["dimension"] != fit["dimension"]:
                hint = " Say 'per', of which size." if row["dimension"] == "ratio" else ""
                problems.add(row.line, f"The limit '{fit['limit']}' is {a(row['dimension'])}, but the fit '{name}' is "
                                       f"{a(fit['dimension'])}.{hint}")
            if row["plus_dimension"] not in ("", fit["dimension"]):
                problems.add(row.line, f"'plus' of the limit '{fit['limit']}' is {a(row['plus_dimension'])}, but the fit '{name}' is "
                                       f"{a(fit['dimension'])}.")


def _match_per(name: str, fit: Lined, row: Lined, proc: Lined, problems: Problems) -> None:
    size = proc["points" if row["per"]["kind"] == "point" else "fits"][row["per"]["name"]]
    if size["dimension"] != fit["dimension"]:
        problems.add(row.line, f"The limit '{fit['limit']}' goes by '{row['per']['name']}', {a(size['dimension'])}, but the fit '{name}' "
                               f"is {a(fit['dimension'])}.")
    if size["group"] not in ("", fit["group"]):
        problems.add(row.line, f"The limit '{fit['limit']}' goes by '{row['per']['name']}', which is read at the stations of "
                               f"{size['group']}, but the fit '{name}' is not.")


def set_units(proc: Lined, limits: Lined, problems: Problems) -> None:
    """`unit` of a fit: the one it names, else the one its limit is written in; '' where the dimension's first will do."""
    for name, fit in proc["fits"].items():
        rows = [row["unit"] for row in limits[fit["limit"]] if row["unit"]] if fit["limit"] else []
        unit = units.BY_ID.get(fit["unit"] or (rows[0] if rows else ""))
        if fit["unit"] and (unit is None or not unit.offered or unit.dimension != fit["dimension"]):
            problems.add(fit.lines["unit"], f"The fit '{name}' is {a(fit['dimension'])}: '{fit['unit']}' is no unit to show it in.")
        fit["unit"] = unit.id if unit and unit.offered else ""
