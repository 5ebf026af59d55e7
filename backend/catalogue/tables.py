"""Reference tables: tables/*.yaml, each row dated and with its source.

Law: a table is read whole or refused whole, like a procedure. `limits.yaml` holds rows of limits, every other file holds
one table of values in columns, each column with the unit that its dimension is taken from.
"""
from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import Any, NamedTuple

from .errors import Problem, Problems, ProcedureError
from .fields import LIMITS, TABLE, TABLE_ROW
from .shape import Field, record
from .unit_table import BY_ID, a
from .words import day, quantity
from .yaml_lines import Lined, load

FOLDER = Path(__file__).parent / "tables"
LIMITS_FILE = "limits.yaml"


class Tables(NamedTuple):
    """`values`: table -> {title, dated, columns: {column: dimension}, rows: {id: row}}; `limits`: name -> rows as in a procedure."""

    values: dict[str, Any]
    limits: dict[str, Any]


@lru_cache(maxsize=4)
def load_tables(folder: Path = FOLDER) -> Tables:
    """Every table there is, read once a process. Raises ProcedureError with all problems. Treat as read-only."""
    values: dict[str, Any] = {}
    limits: dict[str, Any] = {}
    problems: list[Problem] = []
    for path in sorted(folder.glob("*.yaml")) if folder.is_dir() else []:
        try:
            text = path.read_text(encoding="utf-8")
            if path.name == LIMITS_FILE:
                limits = read_limits(text, str(path))
            else:
                values[path.stem] = read_values(text, str(path))
        except ProcedureError as error:
            problems.extend(error.problems)
    if problems:
        raise ProcedureError(problems)
    return Tables(values, limits)


def read_limits(text: str, file: str) -> Lined:
    """name -> rows. Raises ProcedureError."""
    problems = Problems(file)
    read = record({"limits": Field(LIMITS)})(load(text, problems), 1, "limits", problems)
    problems.stop_if_any()
    return read["limits"]


def read_values(text: str, file: str) -> dict[str, Any]:
    """One table of values; a row's own date and source stay with it. Raises ProcedureError."""
    problems = Problems(file)
    raw = load(text, problems)
    head = record(TABLE)(raw, 1, "table", problems)
    if head["table"] and head["table"] != Path(file).stem:
        problems.add(head.lines.get("table", 1), f"The table is called '{head['table']}', but its file is {Path(file).name}: give both one name.")
    columns = {name: _dimension(unit, name, head["columns"], problems) for name, unit in head["columns"].items()}
    problems.stop_if_any()
    rows: dict[str, Any] = {}
    for item in head["rows"]:
        row = _row(item, head, columns, problems)
        if row["id"] in rows:
            problems.add(item.line, f"There are two rows '{row['id']}' in this table.")
        rows[row["id"]] = row
    problems.stop_if_any()
    return {"title": head["title"] or head["table"], "dated": head["dated"], "columns": columns, "rows": rows}


def _dimension(unit: str, column: str, columns: Lined, problems: Problems) -> str:
    if unit not in BY_ID:
        problems.add(columns.lines[column], f"The column '{column}' is in '{unit}', which is no known unit. Known units: {', '.join(BY_ID)}.")
        return ""
    return BY_ID[unit].dimension


def _row(item: Lined, head: Lined, columns: dict[str, str], problems: Problems) -> dict[str, Any]:
    fields = TABLE_ROW | {column: Field(quantity, None) for column in columns} | {"dated": Field(day, head["dated"])}
    row = record(fields)(item, item.line, str(item.get("id", "row")), problems)
    values: dict[str, int] = {}
    for column, dimension in columns.items():
        if row[column] is None:
            continue
        if row[column].dimension not in ("", dimension):
            problems.add(item.lines[column], f"'{column}' of '{row['id']}' is {a(row[column].dimension)}, but the column is {a(dimension)}.")
        values[column] = row[column].value
    return {"id": row["id"], "title": row["title"], "source": row["source"], "dated": row["dated"], "note": row["note"], "values": values}


