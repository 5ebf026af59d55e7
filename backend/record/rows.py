"""Putting events into their table: the one place of the record where SQL is written out, since a push waits for it."""
from collections.abc import Iterable
from dataclasses import dataclass, fields
from datetime import datetime
from itertools import chain
from operator import attrgetter

from django.db import connection

from .models import Event


@dataclass(slots=True)
class Row:
    """A row of `record_event`, column for column."""

    build_id: int
    seq: int
    dev: str
    n: int
    place: int
    type: str
    v: int
    at: int
    seen: int
    who: str
    role: str
    person_id: int
    carried: str
    raw: bytes
    hash: str
    received: datetime
    seal: str = ""
    chain: str = ""
    link: str = ""


COLUMNS = [field.name for field in fields(Row)]
NAMES = ", ".join(f'"{name}"' for name in COLUMNS)
INTO = f"{Event._meta.db_table} ({NAMES})"
RECEIVED = COLUMNS.index("received")
_values = attrgetter(*COLUMNS)


def insert(rows: Iterable[Row]) -> None:
    """Every constraint and trigger of the table holds for these rows, whichever way they go in.

    Rows may be made while the first of them are stored already; making them may ask nothing of the database.
    """
    rows = iter(rows)
    first = next(rows, None)
    if first is not None:  # most syncs bring none
        (_copy if connection.vendor == "postgresql" else _insert)(chain([first], rows))


def _copy(rows: Iterable[Row]) -> None:
    """COPY costs a quarter of an INSERT of as many rows: nothing is parsed, and no value is written out as SQL."""
    with connection.cursor() as cursor, connection.wrap_database_errors, cursor.copy(f"COPY {INTO} FROM STDIN") as copy:
        for row in rows:
            copy.write_row(_values(row))


def _insert(rows: Iterable[Row]) -> None:
    marks = ", ".join(["%s"] * len(COLUMNS))
    with connection.cursor() as cursor:
        cursor.executemany(f"INSERT INTO {INTO} VALUES ({marks})", [_written(_values(row)) for row in rows])


def _written(values: tuple) -> tuple:
    """SQLite keeps a time as text."""
    return (*values[:RECEIVED], connection.ops.adapt_datetimefield_value(values[RECEIVED]), *values[RECEIVED + 1:])
