"""Writers of one SQLite file take turns, and whoever waits in vain is told."""

import sqlite3
import threading
import time

import pytest
from django.db import OperationalError, connection, transaction

from config.sqlite import base

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.skipif(connection.vendor != "sqlite", reason="the embedded form's database")]


@pytest.fixture
def other():
    """Somebody else at the same file."""
    there = sqlite3.connect(connection.settings_dict["NAME"], isolation_level=None, check_same_thread=False)
    yield there
    there.close()


def patience() -> int:
    return connection.connection.execute("PRAGMA busy_timeout").fetchone()[0]


def test_a_writer_gets_its_turn_as_soon_as_the_other_is_done(other):
    other.execute("BEGIN IMMEDIATE")
    threading.Timer(0.3, lambda: other.execute("COMMIT")).start()
    began = time.monotonic()
    with transaction.atomic():
        waited = time.monotonic() - began
        assert patience() == 20_000, "within the transaction SQLite's own patience holds"
    assert 0.25 < waited < 5


def test_a_turn_that_does_not_come_is_an_error_in_the_end(other, monkeypatch):
    connection.ensure_connection()
    monkeypatch.setitem(connection.settings_dict["OPTIONS"], "timeout", 0.1)
    other.execute("BEGIN IMMEDIATE")
    began = time.monotonic()
    with pytest.raises(OperationalError, match="database is locked"), transaction.atomic():
        raise AssertionError("two writers at once")
    assert time.monotonic() - began < 5
    other.execute("COMMIT")
    with transaction.atomic():
        pass


def test_any_other_trouble_is_not_waited_out(monkeypatch):
    def broken(self):
        raise OperationalError("disk I/O error")

    monkeypatch.setattr(base.base.DatabaseWrapper, "_start_transaction_under_autocommit", broken)
    with pytest.raises(OperationalError, match="disk I/O"), transaction.atomic():
        raise AssertionError("begun on a broken disk")
