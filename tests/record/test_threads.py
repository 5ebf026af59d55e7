"""Law: `seq` is 1..n without gaps, whoever writes at the same time, and every event is stored once."""

from concurrent.futures import ThreadPoolExecutor

import pytest
from django.db import connection

from record.models import Build, Event
from record.verify import flaws
from tests.record.world import BUILD, Phone, shop

THREADS, BATCHES, SIZE = 8, 4, 5


@pytest.fixture
def phones(guarded_threads):
    shop("tern-hollow")
    made = [Phone("builder-tern-hollow") for _ in range(THREADS)]
    made[0].sync(made[0].opening())
    return made


def _push(phone: Phone) -> list[int]:
    """Each batch is sent twice, as after a lost answer. The positions that were given."""
    seqs = []
    try:
        for _ in range(BATCHES):
            events = [phone.event() for _ in range(SIZE)]
            first, second = (_sent(phone, events) for _ in range(2))
            assert [v["verdict"] for v in first] == ["stored"] * SIZE
            assert [v["verdict"] for v in second] == ["duplicate"] * SIZE
            assert [v["seq"] for v in first] == [v["seq"] for v in second]
            seqs += [v["seq"] for v in first]
    finally:
        connection.close()
    return seqs


def _sent(phone: Phone, events: list[dict]) -> list[dict]:
    """As a phone does: what was answered with "busy", on a machine that is, is sent again as it was."""
    for _ in range(20):
        answer = phone.sync(*events)
        if answer.status_code != 503:
            return answer.json()["verdicts"]
    raise AssertionError("the record was busy twenty times on end")


def test_eight_phones_at_once(phones):
    with ThreadPoolExecutor(THREADS) as pool:
        given = [seq for seqs in pool.map(_push, phones) for seq in seqs]
    whole = 1 + THREADS * BATCHES * SIZE
    assert sorted(given) == list(range(2, whole + 1))
    build = Build.objects.get(key=BUILD)
    assert list(Event.objects.order_by("seq").values_list("seq", flat=True)) == list(range(1, whole + 1)) and build.head == whole
    assert list(flaws()) == []


def _open(phone: Phone) -> str:
    try:
        return _sent(phone, [phone.opening(build="b-raced")])[0]["verdict"]
    finally:
        connection.close()


def test_eight_phones_open_one_build(phones):
    with ThreadPoolExecutor(THREADS) as pool:
        assert set(pool.map(_open, phones)) == {"stored"}
    assert Build.objects.filter(key="b-raced").count() == 1
    assert sorted(Event.objects.filter(build__key="b-raced").values_list("seq", flat=True)) == list(range(1, THREADS + 1))
