"""Reading fields out of YAML: lists, tables and records.

Law: every field is named in a table; a field that is missing, unknown or of the wrong kind is a problem with its line.
"""
from __future__ import annotations

from difflib import get_close_matches
from typing import Any, NamedTuple

from .errors import Problems
from .words import Reader, ident
from .yaml_lines import Lined, LinedList

REQUIRED = object()


class Field(NamedTuple):
    """How a field is read, and what it is when left out (REQUIRED: it may not be)."""

    read: Reader
    default: Any = REQUIRED


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
