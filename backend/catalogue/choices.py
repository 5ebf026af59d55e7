"""What is chosen and not measured: materials, oil, fuel.

Law: an option has its figures from a dated row with a source; a choice is asked for at one step and nowhere else.
"""
from __future__ import annotations

from typing import Any

from .errors import Problems
from .tables import Tables
from .unit_table import a
from .yaml_lines import Lined


def set_choices(proc: Lined, tables: Tables, problems: Problems) -> None:
    """Each choice becomes {title, options: [{id, title, source, values}], columns: {column: dimension}}."""
    for name, row in proc["choices"].items():
        if bool(row["options"]) == bool(row["table"]):
            problems.add(row.line, f"The choice '{name}' needs either 'options' or a 'table'.")
        out = _from_table(name, row, tables, problems) if row["table"] else _own(name, row, problems)
        made = Lined(title=row["title"], options=out[0], columns=out[1])
        made.line, made.lines = row.line, row.lines
        proc["choices"][name] = made


def _from_table(name: str, row: Lined, tables: Tables, problems: Problems) -> tuple[list, dict]:
    table = tables.values.get(row["table"])
    if table is None:
        there = ", ".join(tables.values) or "none"
        problems.add(row.lines["table"], f"The choice '{name}' takes the table '{row['table']}', which is not there. Tables: {there}.")
        return [], {}
    for wanted in row["only"]:
        if wanted and wanted not in table["rows"]:
            problems.add(row.lines["only"], f"The table '{row['table']}' has no row '{wanted}'. It has: {', '.join(table['rows'])}.")
    ids = [i for i in row["only"] if i in table["rows"]] or list(table["rows"])
    options = [{field: table["rows"][i][field] for field in ("id", "title", "source", "values")} for i in ids]
    return options, dict(table["columns"])


def _own(name: str, row: Lined, problems: Problems) -> tuple[list, dict]:
    columns: dict[str, str] = {}
    options: list[dict[str, Any]] = []
    for option in row["options"]:
        if option["id"] in [o["id"] for o in options]:
            problems.add(option.line, f"The choice '{name}' has two options '{option['id']}'.")
        for column, figure in option["values"].items():
            if columns.setdefault(column, figure.dimension) != figure.dimension:
                problems.add(option.line, f"'{column}' of '{option['id']}' is {a(figure.dimension)}, but {a(columns[column])} before.")
        if option["values"] and not option["source"]:
            problems.add(option.line, f"The option '{option['id']}' has figures: say their 'source'.")
        values = {column: figure.value for column, figure in option["values"].items()}
        options.append({"id": option["id"], "title": option["title"], "source": option["source"], "values": values})
    if row["only"]:
        problems.add(row.lines["only"], "'only' goes with a 'table'.")
    return options, columns


def check_asked(proc: Lined, problems: Problems) -> None:
    """Each choice is asked for at exactly one step."""
    asked: dict[str, str] = {}
    for step in proc["steps"]:
        for choice in step["asks"]:
            if choice in asked:
                problems.add(step.lines["asks"], f"'{choice}' is asked for at '{asked[choice]}' already.")
            asked.setdefault(choice, step["id"])
    for choice in proc["choices"]:
        if choice not in asked:
            problems.add(proc["choices"].lines[choice], f"The choice '{choice}' is asked for at no step: put it in the 'asks' of one.")
