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


def insert(rows: list[Row]) -> None:
    names, marks = ", ".join(f'"{name}"' for name in COLUMNS), ", ".join(["%s"] * len(COLUMNS))
    with connection.cursor() as cursor:
        cursor.executemany(f"INSERT INTO {Event._meta.db_table} ({names}) VALUES ({marks})", [_values(row) for row in rows])


def _values(row: Row) -> list:
    return [connection.ops.adapt_datetimefield_value(row.received) if name == "received" else getattr(row, name) for name in COLUMNS]
