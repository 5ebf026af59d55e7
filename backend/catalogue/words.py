"""Reading single fields: words, numbers, dates, quantities.

Law: a reader takes (value, line, name, problems) and answers the read value; on a problem it answers something harmless.
"""
from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from typing import Any

from .errors import Problems
from .units import Quantity, read_quantity

Reader = Callable[[object, int, str, Problems], Any]
IDENT = re.compile(r"[a-z][a-z0-9_]*")
CODE = re.compile(r"[a-z0-9][a-z0-9_]*")
NOTHING = Quantity(0, "", "")


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
