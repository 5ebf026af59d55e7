"""Law: whatever is altered, dropped, swapped or cut off in the record is found, and the first bad event is named."""

import copy
import json
import os
import random
from datetime import timedelta
from io import StringIO
from types import SimpleNamespace

import pytest
from django.core.management import CommandError, call_command
from django.db import connection

from kernel.canon import canon
from record import chain, guard
from record.models import Build, Event, Quarantine
from record.verify import build_flaw, device_flaw, flaws
from shop.models import Device
from tests.record.world import BUILD, Phone

pytestmark = pytest.mark.django_db
MUTATIONS = int(os.environ.get("VERIFY_MUTATIONS", "10000"))
COLUMNS = ("seq", "dev", "n", "place", "type", "v", "at", "seen", "who", "role", "person_id", "carried", "raw", "hash", "seal", "chain", "link", "received", "build_id")


@pytest.fixture
def record(builder, tern):
    """Twelve events of two phones in one build."""
    builder.sync(builder.opening(), *[builder.event() for _ in range(5)])
    owner = Phone("owner-tern-hollow")
    owner.sync(*[owner.event() for _ in range(6)])
    assert list(flaws()) == []
    return Build.objects.get()


def plain(row) -> SimpleNamespace:
    return SimpleNamespace(**{f.attname: getattr(row, f.attname) for f in row._meta.concrete_fields})


def flipped(value, pick: random.Random):
    if isinstance(value, int):
        return value ^ (1 << pick.randrange(40))
    if isinstance(value, (bytes, memoryview)):
        at, raw = pick.randrange(len(value)), bytearray(value)
        raw[at] ^= 1 << pick.randrange(8)
        return bytes(raw)
    if isinstance(value, str):
        at = pick.randrange(len(value) + 1)
        return value[:at] + chr(ord("a") + pick.randrange(26)) + value[at:] if pick.random() < 0.5 or not value else value[:-1]
    return value + timedelta(microseconds=pick.randint(1, 10**9))


def mutate(rows: list, pick: random.Random) -> tuple[list, int]:
    """Rows with one thing wrong, and the first position of the build where that shows at the earliest."""
    rows = [copy.copy(row) for row in rows]
    kind, at = pick.choice(("flip", "flip", "flip", "drop", "swap", "cut")), pick.randrange(len(rows))
    if kind == "drop":
        return rows[:at] + rows[at + 1 :], rows[at].seq
    if kind == "cut":
        return rows[:at], rows[at].seq
    if kind == "swap":
        other = pick.choice([i for i in range(len(rows)) if i != at])
        rows[at].raw, rows[other].raw = rows[other].raw, rows[at].raw
        for name in pick.sample(("hash", "seal", "who", "n", "dev", "chain", "link"), pick.randint(0, 7)):
            one, two = getattr(rows[at], name), getattr(rows[other], name)
            setattr(rows[at], name, two)
            setattr(rows[other], name, one)
        return rows, min(rows[at].seq, rows[other].seq)
    name, row = pick.choice(COLUMNS), rows[at]
    first = row.seq
    setattr(row, name, flipped(getattr(row, name), pick))
    return sorted(rows, key=lambda r: r.seq), min(first, row.seq)


def test_ten_thousand_mutations_are_found_and_named(record):
    pick, rows = random.Random(1), [plain(e) for e in Event.objects.order_by("seq")]
    devices = list(Device.objects.all())
    assert build_flaw(record, rows, {}) == []
    for round_ in range(MUTATIONS):
        bad, first = mutate(rows, pick)
        found = build_flaw(record, bad, {})
        by_device = [f for d in devices for f in device_flaw(d, sorted((r for r in bad if r.dev == d.dev), key=lambda r: r.place))]
        assert found or by_device, f"mutation {round_} was not found"
        if found:
            assert found[0].position == first, f"mutation {round_}: {found[0]}, not {first}"


@pytest.fixture
def unguarded(record):
    guard.remove(connection)
    yield record
    guard.install(connection)


def another(value):
    """Another value that the column has room for."""
    if isinstance(value, int):
        return value + 1_000
    if isinstance(value, str):
        return ("b" if value[:1] == "a" else "a") + value[1:]
    return flipped(bytes(value) if isinstance(value, memoryview) else value, random.Random(2))


@pytest.mark.parametrize("name", ["seq", "n", "place", "at", "seen", "v", "who", "role", "carried", "raw", "hash", "seal", "chain", "link", "type"])
def test_in_the_database_too(unguarded, name):
    event = Event.objects.get(seq=4)
    Event.objects.filter(seq=4).update(**{name: another(getattr(event, name))})
    found = list(flaws())
    assert found and any(f.position == 4 for f in found)


def test_a_cut_off_end_with_a_mended_count_meets_the_printed_head(unguarded):
    printed = f"{BUILD}:{unguarded.head}:{unguarded.head_hash}"
    call_command("verify", receipt=[(BUILD, unguarded.head, unguarded.head_hash)], stdout=StringIO())
    last = Event.objects.get(seq=unguarded.head)
    Event.objects.filter(pk=last.pk).delete()
    before = Event.objects.get(seq=unguarded.head - 1)
    Build.objects.update(head=before.seq, head_hash=before.chain)
    device = Device.objects.get(dev=last.dev)
    rest = Event.objects.filter(dev=last.dev).order_by("-place").first()
    Device.objects.filter(pk=device.pk).update(count=rest.place, link=rest.link)
    assert list(flaws()) == []
    out = StringIO()
    with pytest.raises(CommandError):
        call_command("verify", "--receipt", printed, stdout=out)
    assert f"position {unguarded.head}" in out.getvalue()


def test_a_head_that_was_printed_earlier_is_borne_out_or_not(record):
    early = Event.objects.get(seq=3)
    assert list(flaws({BUILD: {3: early.chain}})) == list(flaws({BUILD: {3: early.chain[:16]}})) == []
    assert [f.position for f in flaws({BUILD: {3: "0" * 64}})] == [3]


def written_anew(build: Build, seq: int) -> None:
    """By somebody who has the database and this code: one event is changed, and all seals, chains and heads after it follow suit."""
    event = Event.objects.get(seq=seq)
    said = json.loads(bytes(event.raw))
    said["body"]["text"] = "2.4999"
    raw = canon(said).encode()
    Event.objects.filter(pk=event.pk).update(raw=raw, hash=chain.digest(raw))
    head, links = "", dict.fromkeys(Event.objects.values_list("dev", flat=True), "")
    for row in Event.objects.order_by("seq"):
        row.seal = chain.seal(row)
        row.chain = head = chain.next_link(head, row.seal)
        row.link = links[row.dev] = chain.next_link(links[row.dev], row.seal)
        row.save()
    Build.objects.update(head_hash=head)
    for dev, link in links.items():
        Device.objects.filter(dev=dev).update(link=link)


def test_a_record_written_anew_from_end_to_end_meets_the_sheet_and_the_phones(unguarded, builder):
    """Every chain fits; only the heads that left the house, on paper and with each answer to a phone, tell."""
    sheet = builder.get(f"/api/builds/{BUILD}/sheet").json()
    phone = builder.sync().json()
    builder.epoch = phone["epoch"]
    printed, held = f"{BUILD}:{sheet['head']}:{sheet['head_hash'][:16]}", phone["builds"][BUILD]
    call_command("verify", "--receipt", printed, stdout=StringIO())
    written_anew(unguarded, 4)
    assert list(flaws()) == []
    for receipt in (printed, f"{BUILD}:{held['head']}:{held['head_hash']}"):
        with pytest.raises(CommandError):
            call_command("verify", "--receipt", receipt, stdout=StringIO())
    again = {"dev": builder.dev, "epoch": builder.epoch, "events": [], "follow": {BUILD: held["head"]}, "heads": {BUILD: held["head_hash"]}}
    assert builder.post("/api/sync", again).json()["epoch"] != builder.epoch, "the phone's receipt went unheeded"


def test_an_event_of_no_known_device(unguarded):
    Event.objects.filter(seq=2).update(dev="e" * 32)
    assert any("not in the record" in f.says for f in flaws())


def test_what_was_put_aside_is_looked_at(builder, record):
    builder.sync("not an event")
    assert list(flaws()) == []
    guard.remove(connection)
    Quarantine.objects.update(raw=b"changed")
    assert any("put aside" in f.says for f in flaws())
    guard.install(connection)


def test_the_command_says_so(record):
    out = StringIO()
    call_command("verify", stdout=out)
    assert "12 events are as they were stored" in out.getvalue()


@pytest.mark.parametrize("wrong", ["b-x", "b-x:1", "b-x:one:" + "0" * 64, ":1:" + "0" * 64])
def test_a_receipt_is_written_in_one_way(record, wrong):
    with pytest.raises(CommandError, match="as on the sheet"):
        call_command("verify", "--receipt", wrong)


def test_verifying_asks_the_same_of_the_database_however_many_events_there_are(record, builder, django_assert_max_num_queries):
    builder.sync(*[builder.event() for _ in range(40)])
    with django_assert_max_num_queries(8):
        assert list(flaws()) == []


def said(rows: list, build: Build, **receipts: str) -> list[str]:
    return [str(f) for f in build_flaw(build, rows, {int(at[1:]): head for at, head in receipts.items()})]


def test_each_flaw_of_a_build_in_its_own_words(record):
    rows = [plain(e) for e in Event.objects.order_by("seq")]
    third, seventh = f"{rows[2].dev}:{rows[2].n}", f"{rows[6].dev}:{rows[6].n}"

    def with_third(**change) -> list:
        return [*rows[:2], SimpleNamespace(**vars(rows[2]) | change), *rows[3:]]

    assert said(rows, record) == []
    assert said(rows[:2] + rows[3:], record) == [f"{BUILD}, position 3: no event is here; the next one is at 4."]
    assert said([*rows[:3], rows[2], *rows[3:]], record) == [f"{BUILD}, position 3: no event is here; the next one is at 3."]
    assert said(with_third(raw=b"{}"), record) == [f"{BUILD}, position 3: the bytes of event {third} are not those that were stored."]
    assert said(with_third(at=7), record) == [f"{BUILD}, position 3: the columns of event {third} do not say what its bytes say."]
    assert said(with_third(role="owner"), record) == [
        f"{BUILD}, position 3: the stamps of event {third} (who, role, time, place) are not those that were sealed."
    ]
    rows[6].chain = "0" * 64
    assert said(rows, record) == [
        f"{BUILD}, position 7: event {seventh} does not follow on the one before it; it, or one before it, is not the one that was stored."
    ]


@pytest.mark.parametrize("change", [{"head": 13}, {"head": 11}, {"head_hash": "0" * 64}])
def test_a_head_that_does_not_fit_by_its_count_or_its_hash(record, change):
    rows = [plain(e) for e in Event.objects.order_by("seq")]
    vars(record).update(change)
    due = min(12, record.head) + 1
    assert said(rows, record) == [f"{BUILD}, position {due}: the events end at 12, and the head does not fit: what followed was cut off."]


def test_a_receipt_in_its_own_words(record):
    rows = [plain(e) for e in Event.objects.order_by("seq")]
    assert said(rows, record, _12=record.head_hash, _3=rows[2].chain[:16]) == []
    assert said(rows, record, _14="ab", _13="cd") == [f"{BUILD}, position 13: the record ends at 12, and a head was printed at 13."]
    assert said(rows, record, _3="0" * 16) == [
        f"{BUILD}, position 3: the head here is not the one that was printed. Something up to here was written anew."
    ]


def test_each_flaw_of_a_device_in_its_own_words(record):
    device = Device.objects.order_by("pk").first()
    rows = [plain(e) for e in Event.objects.filter(dev=device.dev).order_by("place")]

    def found(rows: list) -> list[str]:
        return [str(f) for f in device_flaw(device, rows)]

    assert len(rows) == 6 and found(rows) == []
    assert found(rows[:2] + rows[3:]) == [f"{device.dev}, position 3: no event is here; the next one is at 4."]
    assert found([*rows[:3], rows[2], *rows[3:]]) == [f"{device.dev}, position 3: no event is here; the next one is at 3."]
    assert found(rows[:4]) == [f"{device.dev}, position 5: 4 events of this device are here and 6 were stored."]
    device.count = 5
    assert found(rows) == [f"{device.dev}, position 6: 6 events of this device are here and 5 were stored."]
    device.count, device.link = 6, "0" * 64
    assert found(rows) == [f"{device.dev}, position 7: 6 events of this device are here and 6 were stored."]
    rows[3].link = "0" * 64
    assert found(rows) == [
        f"{device.dev}, position 4: event {device.dev}:4 does not follow on the one before it; it, or one before it, is not the one that was stored."
    ]


def test_of_the_events_of_no_known_device_the_first_is_named(unguarded):
    Event.objects.filter(seq__in=(2, 3)).update(dev="e" * 32)
    strangers = [f for f in flaws() if f.where == "e" * 32]
    assert [str(f) for f in strangers] == [f"{'e' * 32}, position 2: event {'e' * 32}:2 came from a device that is not in the record."]
