"""What is written out by hand, because a push waits for it, says what the plain way would say."""

import hashlib
import hmac
import json
from contextlib import contextmanager
from types import SimpleNamespace

import pytest
from django.db import IntegrityError, connection, transaction
from django.utils import timezone
from hypothesis import given
from hypothesis import strategies as st

from kernel.canon import canon
from record import chain, rows, shape
from record.models import Build, Event
from record.selectors import events_after
from record.services import ingest
from record.shape import WRITTEN, Draft
from shop.models import Device, Person
from tests.record.world import BUILD

TEXT = st.text(st.characters(exclude_categories=["Cs"]))
VALUES = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**60), 2**60) | st.floats() | st.text(),
    lambda inner: st.lists(inner) | st.dictionaries(TEXT, inner),
    max_leaves=8,
)
COUNT = st.integers(1, shape.LARGEST)


def compact(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


@given(st.fixed_dictionaries({
    "dev": st.from_regex(r"[0-9a-f]{32}", fullmatch=True), "n": COUNT, "build": st.from_regex(r"b-[a-z0-9-]{1,38}", fullmatch=True),
    "type": st.from_regex(r"[a-z][a-z0-9_.]{0,39}", fullmatch=True), "v": st.integers(1, 9999), "at": COUNT, "seen": COUNT,
    "body": st.dictionaries(TEXT, VALUES),
}))  # fmt: skip
def test_an_event_is_kept_as_the_kernels_canonical_text(event):
    found = shape.read(event)
    try:
        plain = canon({name: event[name] for name in WRITTEN}).encode()
    except (TypeError, UnicodeEncodeError):
        assert not isinstance(found, Draft)
    else:
        assert isinstance(found, Draft) and found.raw == plain and found.hash == hashlib.sha256(plain).hexdigest()


@given(TEXT, TEXT, TEXT, TEXT)
def test_seal_and_mark_are_over_json(dev, who, role, carried):
    now = timezone.now()
    row = SimpleNamespace(build_id=3, seq=4, dev=dev, n=5, place=6, who=who, role=role, person_id=7, carried=carried, received=now, hash="ab" * 32)
    stamps = [3, 4, dev, 5, 6, who, role, 7, carried, chain.moment(now), "ab" * 32]
    assert chain.seal(row) == hashlib.sha256(compact(stamps).encode()).hexdigest()
    ours = chain.mark("key", dev=dev, n=5, who=who, role=role, carried=carried, hash="ab" * 32)
    assert ours == hmac.digest(b"key", compact([dev, 5, who, role, carried, "ab" * 32]).encode(), "sha256").hex()[:32]


def test_a_builds_chain_holds_seals_from_where_it_says():
    build = SimpleNamespace(sealed_from=5)
    assert [chain.joins(build, seq, "hash", "seal") for seq in (4, 5, 6)] == ["hash", "seal", "seal"]


@pytest.mark.django_db
@pytest.mark.parametrize("carried", ["", 'in"es\\'])
def test_phones_get_what_the_kernel_reads_and_the_mark(builder, tern, carried):
    builder.sync(builder.opening(), builder.event(body={"note": 'a "quoted"\n word, ½'}))
    build, keys = Build.objects.get(), {"dev", "n", "who", "role", "carried", "hash"}
    for event in Event.objects.all():
        event.who, event.carried = 'o"brien', carried
        told = json.loads(_told(build, event))
        assert told.pop("mark") == chain.mark(tern.mark_key, **{key: getattr(event, key) for key in keys})
        assert told == event.wire()
    assert [seq for seq, _ in events_after(build, 0, 10, "")] == [1, 2] and events_after(build, 2, 10, "") == []


def _told(build: Build, event: Event) -> str:
    from record.selectors import _told

    return _told(build.shop.mark_key, event.raw, event.seq, event.dev, event.n, event.who, event.role, event.carried, event.hash)


class Table:
    """A PostgreSQL connection that only notes what is copied into it."""

    vendor = "postgresql"

    def __init__(self):
        self.said, self.rows, self.wrapped = "", [], False

    @property
    @contextmanager
    def wrap_database_errors(self):
        self.wrapped = True
        yield

    @contextmanager
    def cursor(self):
        yield self

    @contextmanager
    def copy(self, statement):
        self.said = statement
        yield self

    def write_row(self, values):
        self.rows.append(values)


def row(seq: int, build: int = 1, person: int = 1) -> rows.Row:
    return rows.Row(build, seq, "d" * 32, seq, seq, "reading", 1, 2, 3, "marek", "builder", person, "", b"{}", "h", timezone.now(), "s", "c", "l")


def test_on_postgresql_rows_are_copied(monkeypatch):
    table, made = Table(), [row(1), row(2)]
    monkeypatch.setattr(rows, "connection", table)
    rows.insert(made)
    assert table.wrapped and table.said == f"COPY record_event ({rows.NAMES}) FROM STDIN"
    assert table.rows == [tuple(getattr(r, name) for name in rows.COLUMNS) for r in made]


def test_the_first_rows_are_on_their_way_while_the_next_are_made(monkeypatch):
    table, seen = Table(), []
    monkeypatch.setattr(rows, "connection", table)

    def made():
        for seq in (1, 2, 3):
            seen.append(len(table.rows))
            yield row(seq)

    rows.insert(made())
    assert seen == [0, 1, 2] and [values[1] for values in table.rows] == [1, 2, 3]


@pytest.mark.django_db
def test_rows_lie_in_the_table_as_they_were_made(builder, django_assert_num_queries):
    builder.sync(builder.opening())
    build, person = Build.objects.get(), Person.objects.get(slug="builder")
    made = [row(seq, build.pk, person.pk) for seq in (11, 12)]
    with django_assert_num_queries(0):
        rows.insert([])
    rows.insert(made)
    with pytest.raises(AttributeError):  # a name that is no column would be lost unseen
        made[0].stamp = "x"
    for one in made:
        event = Event.objects.get(seq=one.seq)
        event.raw = bytes(event.raw)
        assert [getattr(event, name) for name in rows.COLUMNS] == [getattr(one, name) for name in rows.COLUMNS]


@pytest.mark.django_db
def test_the_tables_own_rules_hold(builder):
    builder.sync(builder.opening())
    build, person = Build.objects.get(), Person.objects.get(slug="builder")
    with pytest.raises(IntegrityError), transaction.atomic():
        rows.insert([row(11, build.pk, person.pk), row(11, build.pk, person.pk)])
    with pytest.raises(IntegrityError), transaction.atomic():
        rows.insert([row(12, build.pk + 99, person.pk)])
        connection.check_constraints()
    assert Event.objects.count() == 1


@pytest.mark.django_db
def test_the_device_says_what_is_stored_of_it(builder):
    builder.sync(builder.opening())
    device, person = Device.objects.get(dev=builder.dev), Person.objects.get(slug="builder")
    ingest(device=device, person=person, things=[shape.read(builder.event()), shape.read(builder.event(build="b-elsewhere"))])
    there = Device.objects.get(dev=builder.dev)
    assert (device.count, device.link, device.homeless) == (there.count, there.link, there.homeless) == (2, there.link, True)


@pytest.mark.django_db
def test_numbers_sent_again_are_found_among_new_ones_and_gaps(builder):
    opening, third = builder.opening(), builder.event(n=30)
    builder.sync(opening, third)
    said = builder.sync(third, builder.event(n=20), builder.event(n=31), opening).json()["verdicts"]
    assert [(v["n"], v["verdict"], v["seq"]) for v in said] == [(30, "duplicate", 2), (20, "stored", 3), (31, "stored", 4), (1, "duplicate", 1)]
    assert BUILD in builder.sync().json()["builds"]


def event(**more) -> dict:
    return {"dev": "a" * 32, "n": 1, "build": BUILD, "type": "reading", "v": 1, "at": 0, "seen": 0, "body": {}} | more


@pytest.mark.parametrize("name", shape.CLAIMED)
def test_a_claim_is_text_of_up_to_forty_characters_that_can_be_written(name):
    claimed = dict.fromkeys(shape.CLAIMED, "x")

    def said(value: object) -> bool:
        return name in shape.read(event(**claimed | {"who": "x", name: value})).claim

    assert said("y" * 40) and said("") and said("Łukasz \ue000 \ud7ff")
    assert not said("y" * 41) and not said(7) and not said(["y"]) and not said("y\x00") and not said("y\ud800") and not said("y\udfff")


def test_who_says_nothing_of_an_author_claims_nothing():
    assert shape.read(event(role="owner", mark="x")).claim == {}
    assert shape.read(event(who="x")).claim == {"who": "x", "carried": ""}


def test_what_cannot_be_an_event_in_its_own_words():
    assert shape.read(7) == shape.Misfit(None, "malformed", "It is not an object.", "None:None", b"7")
    assert shape.read(event(n=0))[:4] == (0, "malformed", "Its “n” is not a count from 1.", f"{'a' * 32}:0")
    assert shape.read(event(n=-1))[:1] == shape.read(event(n=True))[:1] == shape.read(event(n="1"))[:1] == (None,)
    assert shape.read(event(body={"x": 0.5})).why == "Its body holds something other than text, whole numbers, lists and objects."
    assert shape.read(event(body={"x": "y" * shape.EVENT_BYTES})).why == "It is larger than 64 KB."
    deep: dict | list = []
    for _ in range(20):
        deep = [deep]
    assert shape.read(event(body={"x": deep})).why == "Its body is nested more than 20 deep."
    assert shape.read(event(dev="\n" * 99)).event == "?" * 60
