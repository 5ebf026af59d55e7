"""Putting events into their table: the one statement of the record that is written out, since a push waits for it."""
from dataclasses import dataclass, fields
from datetime import datetime

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


AT_ONCE = 500


def insert(rows: list[Row]) -> None:
    names, marks = ", ".join(f'"{name}"' for name in COLUMNS), ", ".join(["%s"] * len(COLUMNS))
    into = f"INSERT INTO {Event._meta.db_table} ({names}) VALUES "
    with connection.cursor() as cursor:
        for at in range(0, len(rows), AT_ONCE):
            part = rows[at:at + AT_ONCE]
            cursor.execute(into + ", ".join([f"({marks})"] * len(part)), [value for row in part for value in _values(row)])


def _values(row: Row) -> list:
    return [connection.ops.adapt_datetimefield_value(row.received) if name == "received" else getattr(row, name) for name in COLUMNS]
