"""Law: an event's build and person are there, and stay there; either database refuses to have it otherwise."""

from concurrent.futures import ThreadPoolExecutor
from threading import Event as Signal

import pytest
from django.db import IntegrityError, connection, transaction

from record import belonging
from record.models import Build, Event
from record.rows import insert
from shop.models import Person
from tests.record.spy import Spy
from tests.record.test_as_written import row
from tests.record.world import Phone, shop


@pytest.fixture
def stored(builder) -> Event:
    assert builder.verdicts(builder.opening()) == ["stored"]
    return Event.objects.get()


def refused(sql: str, *values: object) -> None:
    with pytest.raises(IntegrityError), transaction.atomic():
        with connection.cursor() as cursor:
            cursor.execute(sql, values)
        connection.check_constraints()  # SQLite asks at the end


@pytest.mark.django_db
@pytest.mark.parametrize(("build", "person"), [(99, 0), (0, 99)])
def test_no_event_of_what_is_not_there(stored, build, person):
    good, bad = row(11, stored.build_id, stored.person_id), row(12, stored.build_id + build, stored.person_id + person)
    with pytest.raises(IntegrityError), transaction.atomic():
        insert([good, bad])
        connection.check_constraints()
    assert list(Event.objects.all()) == [stored]


@pytest.mark.django_db
@pytest.mark.parametrize(("table", "column"), [("record_build", "build_id"), ("shop_person", "person_id")])
@pytest.mark.parametrize("sql", ["DELETE FROM {} WHERE id = %s", "UPDATE {} SET id = id + 1000 WHERE id = %s"])
def test_what_has_events_stays(stored, table, column, sql):
    with connection.cursor() as cursor:  # what else refers to them goes first
        cursor.execute("DELETE FROM record_build_people")
        cursor.execute("DELETE FROM shop_devicetoken")
        cursor.execute("UPDATE shop_device SET person_id = NULL")
        cursor.execute("DELETE FROM record_buildstatus")
    refused(sql.format(table), getattr(stored, column))


@pytest.mark.django_db
def test_what_has_no_events_may_go(stored):
    Build.objects.create(shop=stored.build.shop, key="b-empty", name="Empty", procedure="", revision=0, duty="").delete()
    Person.objects.get(slug="apprentice").delete()
    connection.check_constraints()


def _meanwhile(work) -> object:
    """The work on a connection of its own; what it raised, if it did."""
    try:
        work()
    except IntegrityError as refusal:
        return refusal
    finally:
        connection.close()
    return None


def test_of_a_deletion_and_an_event_at_the_same_time_one_is_refused(guarded_threads):
    if connection.vendor != "postgresql":
        pytest.skip("SQLite lets one write at a time")
    shop("tern-hollow")
    Phone("builder-tern-hollow")
    person = Person.objects.get(slug="builder")
    build = Build.objects.create(shop=person.shop, key="b-brief", name="Brief", procedure="", revision=0, duty="")
    inserted, deleting = Signal(), Signal()

    def record() -> None:
        with transaction.atomic():
            insert([row(1, build.pk, person.pk)])
            inserted.set()
            deleting.wait(20)
            deleting.clear()
            deleting.wait(1)  # the deletion now waits for this transaction; there is nothing to be told by

    def delete() -> None:
        inserted.wait(20)
        deleting.set()
        with connection.cursor() as cursor:
            cursor.execute("DELETE FROM record_build WHERE id = %s", [build.pk])

    with ThreadPoolExecutor(2) as pool:
        recorded, deleted = pool.map(_meanwhile, (record, delete))
    assert recorded is None and isinstance(deleted, IntegrityError)
    assert Event.objects.get().build_id == build.pk and Build.objects.filter(pk=build.pk).exists()


class WithKeys(Spy):
    """It has one foreign key, and one constraint that is none."""

    def __init__(self):
        super().__init__("postgresql")
        self.introspection = self.ops = self

    def get_constraints(self, _cursor, table):
        return {f"{table}_key": {"foreign_key": ("record_build", "id")}, "one_event_a_seq": {"foreign_key": None}}

    def quote_name(self, name):
        return f'"{name}"'


def test_the_keys_go_when_the_triggers_come_and_come_back_when_they_go():
    conn = WithKeys()
    belonging.install(conn)
    assert conn.told[0] == 'ALTER TABLE record_event DROP CONSTRAINT "record_event_key"'
    made = [statement.split("(")[0].split()[-1] for statement in conn.told if statement.startswith("CREATE FUNCTION")]
    conn.told.clear()
    belonging.remove(conn)
    assert [s.split("(")[0].split()[-1] for s in conn.told if s.startswith("DROP FUNCTION")] == made
    keys = [s for s in conn.told if "ADD FOREIGN KEY" in s]
    assert len(keys) == 2 and all(column in keys[i] and table in keys[i] for i, (column, table) in enumerate(belonging.PARENTS.items()))
