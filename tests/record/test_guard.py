"""Law: nobody changes or deletes an event; the database itself refuses."""

from pathlib import Path

import pytest
from django.db import DatabaseError, connection, transaction

from record import guard
from record.models import Event, Quarantine

pytestmark = pytest.mark.django_db


@pytest.fixture
def kept(builder):
    assert builder.verdicts(builder.opening(), "not an event") == ["stored", "quarantined"]


@pytest.mark.parametrize("table", guard.TABLES)
@pytest.mark.parametrize("sql", ["UPDATE {} SET received = received", "DELETE FROM {}", "UPDATE {} SET hash = 'x'"])
def test_the_database_refuses(kept, table, sql):
    with pytest.raises(DatabaseError, match="append-only"), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(sql.format(table))
    assert (Event.objects.count(), Quarantine.objects.count()) == (1, 1)


def test_the_models_are_refused_too(kept):
    event = Event.objects.get()
    event.who = "someone else"
    with pytest.raises(DatabaseError), transaction.atomic():
        event.save()
    with pytest.raises(DatabaseError), transaction.atomic():
        event.delete()
    assert Event.objects.get().who == "builder"


def test_truncate_is_refused_where_there_is_one(kept):
    if connection.vendor != "postgresql":
        pytest.skip("SQLite has no TRUNCATE")
    with connection.cursor() as cursor:
        cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")  # else the rows of this very transaction are refused first
        with pytest.raises(DatabaseError, match="append-only"), transaction.atomic():
            cursor.execute("TRUNCATE record_event")


def test_nothing_of_the_server_takes_the_guard_down():
    """`guard.remove` is for migrations; whoever else comes to call it says so here first."""
    backend = Path(guard.__file__).parents[1]
    callers = {path.relative_to(backend).as_posix() for path in backend.rglob("*.py") if "guard.remove" in path.read_text()}
    assert callers == {"record/migrations/0003_guard.py", "record/migrations/0005_seal_what_is_there.py"}
