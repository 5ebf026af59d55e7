"""Law: nobody changes or deletes an event; the database itself refuses."""

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


def test_a_failed_reset_leaves_the_guard_up(kept):
    with pytest.raises(RuntimeError), guard.unguarded():
        raise RuntimeError("interrupted")
    with pytest.raises(DatabaseError, match="append-only"), transaction.atomic():
        Event.objects.all().delete()
