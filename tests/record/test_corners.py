"""The rare paths of the guarding code, each by itself."""

from io import StringIO

import pytest
from django.core.management import call_command
from django.db import connection, connections
from django.http import UnreadablePostError

from record import apps, checks, guard, intake, procedures, shape
from record.models import Build
from shop import throttle
from shop.models import Device, Person
from sync.request import Refused
from sync.views import _body
from tests.record.spy import Spy

pytestmark = pytest.mark.django_db


def test_an_old_sqlite_is_named_at_the_start(monkeypatch):
    monkeypatch.setattr(checks, "wal_is_safe", lambda version: False)
    found = checks.sqlite_journal(None)
    assert [c.id for c in found] == (["record.I001"] if connection.vendor == "sqlite" else [])
    monkeypatch.setattr(checks, "wal_is_safe", lambda version: True)
    assert checks.sqlite_journal(None) == []


def test_both_databases_have_a_trigger_for_every_act():
    for statements, acts in ((guard._sqlite(), 2), (guard._postgres()[1:], 3)):
        assert len(statements) == acts * len(guard.TABLES)
        assert all(any(table in s for s in statements) for table in guard.TABLES)


def test_rows_are_guarded_one_by_one_and_a_truncation_as_one_act():
    for statement in guard._postgres()[1:]:
        assert ("FOR EACH STATEMENT" in statement) == ("BEFORE TRUNCATE" in statement) != ("FOR EACH ROW" in statement)


@pytest.mark.parametrize(("vendor", "word"), [("sqlite", "RAISE(ABORT"), ("postgresql", "EXECUTE FUNCTION")])
def test_the_guard_speaks_each_databases_words(vendor, word):
    spy = Spy(vendor)
    guard.install(spy)
    assert any(word in s for s in spy.told)
    spy.told.clear()
    guard.remove(spy)
    assert len(spy.told) == 3 * len(guard.TABLES) and all((" ON record_" in s) == (vendor == "postgresql") for s in spy.told)


@pytest.mark.parametrize(("plan", "tables", "put_up"), [([1], ["record_event"], True), ([], ["record_event"], False), (None, ["record_event"], False), ([1], [], False)])
def test_the_guard_goes_up_after_a_migration_that_did_something(monkeypatch, plan, tables, put_up):
    called = []
    monkeypatch.setattr(guard, "install", called.append)
    monkeypatch.setattr(connections["default"].introspection, "table_names", lambda: tables)
    apps._guard_up("default", plan)
    assert bool(called) == put_up


def test_what_is_nested_beyond_writing_is_noted_as_such():
    deep: list = []
    for _ in range(100_000):
        deep = [deep]
    assert b"too deep" in shape.misfit({"body": deep}, "malformed", "x").raw


def test_a_count_that_ran_out_meanwhile_starts_again(monkeypatch):
    def gone(key):
        raise ValueError

    monkeypatch.setattr(throttle.cache, "incr", gone)
    throttle.failed(name="x", address="y")
    assert not throttle.too_many(name="x", address="y")


def test_a_body_that_broke_off():
    class Broken:
        @property
        def body(self):
            raise UnreadablePostError

    with pytest.raises(Refused) as refused:
        _body(Broken())
    assert refused.value.status == 400


def test_the_sweep_by_command(builder):
    builder.sync(builder.opening())
    out = StringIO()
    call_command("review_sweep", stdout=out)
    assert "1 builds" in out.getvalue() and not Build.objects.get().dirty


def test_two_phones_open_one_build_at_the_same_moment(builder, tern):
    """The second finds it made between its look and its making, and changes nothing of it."""
    device, marek, ines = Device.objects.get(dev=builder.dev), Person.objects.get(slug="builder"), Person.objects.get(slug="owner")
    draft = shape.read(builder.opening())
    for person in (marek, ines):
        intake._open_build(device, draft, person)
    assert [p.slug for p in Build.objects.get().people.all()] == ["builder"]


def test_the_newest_revision_counts_in_whatever_order_they_are_found(monkeypatch):
    found = {("a", 2): {"revision": 2}, ("a", 1): {"revision": 1}, ("b", 1): {"revision": 1}, ("b", 3): {"revision": 3}}
    monkeypatch.setattr(procedures.library, "load_all", lambda: found)
    assert procedures.newest() == [{"revision": 2}, {"revision": 3}]
