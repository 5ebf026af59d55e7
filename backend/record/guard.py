"""Law: nobody changes or deletes an event. The database itself refuses, whoever asks.

Triggers on SQLite and PostgreSQL, put up by a migration. Nothing that the server does takes them down; only a migration
that has to rewrite the tables may, and puts them up again.
"""
from django.db import connection

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
