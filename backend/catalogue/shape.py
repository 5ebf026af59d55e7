"""Reading fields out of YAML.

Law: every field is named in a table; a field that is missing, unknown or of the wrong kind is a problem with its line.
A reader takes (value, line, name, problems) and answers the read value; on a problem it answers something harmless.
"""
from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from difflib import get_close_matches
from typing import Any, NamedTuple

from .errors import Problems
from .units import Quantity, read_quantity
from .yaml_lines import Lined, LinedList

Reader = Callable[[object, int, str, Problems], Any]
REQUIRED = object()
IDENT = re.compile(r"[a-z][a-z0-9_]*")
CODE = re.compile(r"[a-z0-9][a-z0-9_]*")
NOTHING = Quantity(0, "", "")


class Field(NamedTuple):
    """How a field is read, and what it is when left out (REQUIRED: it may not be)."""

    read: Reader
    default: Any = REQUIRED


def text(value: object, line: int, name: str, problems: Problems) -> str:
    """A sentence or a word; line breaks become spaces."""
    if not isinstance(value, str) or not value.strip():
        problems.add(line, f"'{name}' must be text.")
        return ""
    return " ".join(value.split())


def ident(value: object, line: int, name: str, problems: Problems) -> str:
    """A name other fields refer to: a-z, digits and underscores."""
    if not isinstance(value, str) or not IDENT.fullmatch(value):
        problems.add(line, f"'{name}' must be a name of small letters, digits and underscores, not '{value}'.")
        return ""
    return value


def code(value: object, line: int, name: str, problems: Problems) -> str:
    """What an option or a row of a table is called: as a name, but it may begin with a digit."""
    if not isinstance(value, str) or not CODE.fullmatch(value):
        problems.add(line, f"'{name}' must be small letters, digits and underscores, not '{value}'.")
        return ""
    return value


def yes_no(value: object, line: int, name: str, problems: Problems) -> bool:
    """true or false."""
    if value not in ("true", "false"):
        problems.add(line, f"'{name}' must be true or false, not '{value}'.")
    return value == "true"


def whole(low: int, high: int) -> Reader:
    """A whole number between two bounds, both allowed."""
    def read(value: object, line: int, name: str, problems: Problems) -> int:
        if isinstance(value, str) and re.fullmatch(r"[0-9]{1,9}", value) and low <= int(value) <= high:
            return int(value)
        problems.add(line, f"'{name}' must be a whole number from {low} to {high}, not '{value}'.")
        return low
    return read


def day(value: object, line: int, name: str, problems: Problems) -> str:
    """A date as year-month-day."""
    try:
        return date.fromisoformat(str(value)).isoformat()
    except ValueError:
        problems.add(line, f"'{name}' must be a date such as 2026-11-25, not '{value}'.")
        return ""


def one_of(*words: str) -> Reader:
    """One of a few words."""
    def read(value: object, line: int, name: str, problems: Problems) -> str:
        if value not in words:
            problems.add(line, f"'{name}' must be {' or '.join(words)}, not '{value}'.")
            return words[0]
        return str(value)
    return read


def quantity(value: object, line: int, name: str, problems: Problems) -> Quantity:
    """A number and a unit, on the grid."""
    try:
        return read_quantity(value if isinstance(value, str) else "")
    except ValueError as error:
        problems.add(line, f"'{name}': {error}")
        return NOTHING


def list_of(read_item: Reader) -> Reader:
    """A list whose items are all read the same way."""
    def read(value: object, line: int, name: str, problems: Problems) -> LinedList:
        out = LinedList()
        out.line, out.lines = line, []
        if not isinstance(value, LinedList):
            problems.add(line, f"'{name}' must be a list.")
            return out
        out.lines = value.lines
        out.extend(read_item(v, at, name, problems) for v, at in zip(value, value.lines, strict=True))
        return out
    return read


def table_of(read_item: Reader) -> Reader:
    """A mapping from names to things that are all read the same way."""
    def read(value: object, line: int, name: str, problems: Problems) -> Lined:
        out = _empty(value, line)
        if not isinstance(value, Lined):
            problems.add(line, f"'{name}' must be a table of names.")
            return out
        for key, item in value.items():
            at = value.lines[key]
            if ident(key, at, f"a name in {name}", problems):
                out[key] = read_item(item, at, key, problems)
        return out
    return read


def either(when_list: Reader, otherwise: Reader) -> Reader:
    """One reader for a list, another for anything else."""
    def read(value: object, line: int, name: str, problems: Problems) -> Any:
        return (when_list if isinstance(value, LinedList) else otherwise)(value, line, name, problems)
    return read


def as_it_is(value: object, line: int, name: str, problems: Problems) -> Any:
    """A set of fields that is read later, when it is known which it may have."""
    if not isinstance(value, Lined):
        problems.add(line, f"'{name}' must be sets of fields.")
        return _empty(None, line)
    return value


def record(fields: dict[str, Field]) -> Reader:
    """A mapping with named fields; every field is present in the answer."""
    def read(value: object, line: int, name: str, problems: Problems) -> Lined:
        out = _empty(value, line)
        if not isinstance(value, Lined):
            problems.add(line, f"'{name}' must be a set of fields: {', '.join(fields)}.")
            value = _empty(None, line)
        else:
            _refuse_unknown(value, fields, name, problems)
        for field, (read_field, default) in fields.items():
            out[field] = _field(value, field, read_field, default, line, name, problems)
        return out
    return read


def _field(value: Lined, field: str, read_field: Reader, default: Any, line: int, name: str, problems: Problems) -> Any:
    if value.get(field) is not None:
        return read_field(value[field], value.lines[field], field, problems)
    if default is REQUIRED:
        problems.add(value.lines.get(field, line), f"'{name}' has no '{field}'.")
        return read_field(None, line, field, Problems(""))
    return type(default)() if isinstance(default, (list, dict)) else default


def _refuse_unknown(value: Lined, fields: dict[str, Field], name: str, problems: Problems) -> None:
    for key in value:
        if key not in fields:
            near = get_close_matches(key, fields, 1)
            hint = f" Did you mean '{near[0]}'?" if near else f" It may have: {', '.join(fields)}."
            problems.add(value.lines[key], f"'{name}' has no field called '{key}'.{hint}")


def _empty(value: object, line: int) -> Lined:
    out = Lined()
    out.line = line
    out.lines = dict(value.lines) if isinstance(value, Lined) else {}
    return out
