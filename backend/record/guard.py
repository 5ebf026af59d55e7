"""Law: nobody changes or deletes an event. The database itself refuses, whoever asks.

Triggers on SQLite and PostgreSQL. They are put up by a migration and taken down only by `unguarded`, which the reset of
the demo shop uses inside one transaction.
"""
from contextlib import contextmanager

from django.db import connection, transaction

TABLES = ("record_event", "record_quarantine")
REFUSAL = "the record is append-only"

_PG_FUNCTION = f"""CREATE OR REPLACE FUNCTION record_refuse() RETURNS trigger LANGUAGE plpgsql AS
$$ BEGIN RAISE EXCEPTION '{REFUSAL}' USING ERRCODE = 'integrity_constraint_violation'; END $$"""


def install(conn=None) -> None:
    conn = conn or connection
    statements = _postgres() if conn.vendor == "postgresql" else _sqlite()
    with conn.cursor() as cursor:
        for statement in statements:
            cursor.execute(statement)


def remove(conn=None) -> None:
    conn = conn or connection
    on = " ON {}" if conn.vendor == "postgresql" else ""
    with conn.cursor() as cursor:
        for table in TABLES:
            for act in ("update", "delete", "truncate"):
                cursor.execute(f"DROP TRIGGER IF EXISTS {table}_no_{act}" + on.format(table))


@contextmanager
def unguarded():
    """For the reset of a demo shop only. On failure the transaction brings the triggers back."""
    with transaction.atomic():
        remove()
        yield
        install()


def _sqlite() -> list[str]:
    return [
        f"CREATE TRIGGER IF NOT EXISTS {table}_no_{act} BEFORE {act.upper()} ON {table} "
        f"BEGIN SELECT RAISE(ABORT, '{REFUSAL}'); END"
        for table in TABLES for act in ("update", "delete")
    ]


def _postgres() -> list[str]:
    rows = [
        f"CREATE OR REPLACE TRIGGER {table}_no_{act} BEFORE {act.upper()} ON {table} "
        f"FOR EACH {'STATEMENT' if act == 'truncate' else 'ROW'} EXECUTE FUNCTION record_refuse()"
        for table in TABLES for act in ("update", "delete", "truncate")
    ]
    return [_PG_FUNCTION, *rows]
