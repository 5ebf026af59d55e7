"""SQLite's own refusals, not injected ones: no room left in the file, and a file that somebody else holds locked."""

import sqlite3

import pytest
from django.db import connection

from record.models import Event, Quarantine
from tests.record.world import Phone, shop

from .test_nth_failure import whole

pytestmark = pytest.mark.skipif("connection.vendor != 'sqlite'", reason="SQLite's own refusals")
LONG = {"point": "main_bore", "station": "1", "text": "2.4505", "unit": "in", "note": "x" * 3_000}


@pytest.fixture
def marek(current):
    shop("tern-hollow")
    phone = Phone("builder-tern-hollow")
    phone.client.raise_request_exception = False
    phone.sync(phone.opening())
    yield phone
    pragma("max_page_count = 1073741823")
    pragma("busy_timeout = 20000")


def pragma(words: str) -> int:
    with connection.cursor() as cursor:
        row = cursor.execute(f"PRAGMA {words}").fetchone()
    return row[0] if row else 0


def test_the_disk_is_full(marek):
    """Room for none, one, two … pages more, until a push goes through: each that does not is a 503, and nothing of it stays."""
    events, full = [*(marek.event(body=LONG) for _ in range(6)), "not an event"], 0
    here = pragma("page_count") - pragma("freelist_count")
    for pages in range(40):
        pragma(f"max_page_count = {max(here + pages, pragma('page_count'))}")
        answer = marek.sync(*events)
        whole()
        if answer.status_code == 200:
            break
        full += 1
        assert answer.status_code == 503 and "Nothing was lost" in answer.json()["error"]
        assert (Event.objects.count(), Quarantine.objects.count()) == (1, 0)
    assert full > 3, "the disk was never full"
    assert [v["verdict"] for v in answer.json()["verdicts"]] == ["stored"] * 6 + ["quarantined"]
    assert Event.objects.count() == 7


@pytest.mark.parametrize("lock", ["IMMEDIATE", "EXCLUSIVE"])
def test_somebody_else_holds_the_file(marek, lock):
    event = marek.event()
    pragma("busy_timeout = 20")
    other = sqlite3.connect(connection.settings_dict["NAME"], isolation_level=None)
    try:
        other.execute(f"BEGIN {lock}")
        assert marek.sync(event).status_code in (500, 503)
    finally:
        other.close()
    whole()
    assert Event.objects.count() == 1 and marek.verdicts(event) == ["stored"]
