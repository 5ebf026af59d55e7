"""The published bounds, each met exactly and passed by one."""

import json
import time

import pytest

from record.models import Event
from record.shape import DEPTH, EVENT_BYTES, LARGEST, Draft, read
from shop.models import Device
from sync.request import MOST_BYTES, MOST_EVENTS, Refused, parse
from tests.record.world import BUILD

from .test_files import bring, lines

pytestmark = pytest.mark.django_db


def asked(**more) -> bytes:
    return json.dumps({"dev": "d", "epoch": "", "events": [], "follow": {}} | more).encode()


def test_the_bounds_are_those_of_the_protocol():
    assert (MOST_EVENTS, MOST_BYTES, EVENT_BYTES, DEPTH, LARGEST) == (500, 262_144, 65_536, 20, 9_007_199_254_740_991)


def test_five_hundred_entries_go_and_one_more_does_not():
    assert len(parse(asked(events=[{}] * 500)).events) == 500
    assert len(parse(asked(events=[{}] * 300, entries=[[]] * 200)).events) == 500
    for over in ({"events": [{}] * 501}, {"events": [{}] * 300, "entries": [[]] * 201}):
        with pytest.raises(Refused) as refusal:
            parse(asked(**over))
        assert refusal.value.status == 413


def test_a_quarter_of_a_megabyte_goes_and_one_byte_more_does_not():
    def padded(size: int, events: list) -> bytes:
        bare = asked(events=events, pad="")
        return asked(events=events, pad="x" * (size - len(bare)))

    assert len(parse(padded(262_144, [{}, {}])).events) == 2
    with pytest.raises(Refused) as refusal:
        parse(padded(262_145, [{}, {}]))
    assert (refusal.value.status, refusal.value.sentence) == (413, "The batch is larger than 500 events or 256 KB. Send half of it.")


@pytest.mark.parametrize("events", [[], [{}]])
def test_what_cannot_be_halved_is_read_however_long_the_request(events):
    assert parse(asked(events=events, pad="x" * 262_144)).events == events


def test_a_phone_that_follows_thousands_of_builds_still_hands_in_an_entry(builder):
    builder.epoch, opening = builder.sync().json()["epoch"], builder.opening()
    follow = {f"b-{'x' * 38}"[:-5] + f"{i:05}": 7 for i in range(6_000)}
    assert len(json.dumps(follow)) > 262_144
    answer = builder.sync(opening, follow=follow).json()
    assert [v["verdict"] for v in answer["verdicts"]] == ["stored"]
    assert builder.sync(follow=follow).status_code == 200


def test_numbers_too_long_to_be_meant_become_what_no_event_may_hold():
    assert parse(asked(events=[10**39])).events == [10**39]
    assert parse(asked(events=[10**40])).events == [float("inf")]


def test_positions_and_receipts_are_counts():
    said = parse(asked(follow={"a": 0, "b": LARGEST, "c": LARGEST + 1, "d": -1, "e": True}, receipt={"place": LARGEST, "link": "x", "aside": 3}))
    assert said.follow == {"a": 0, "b": LARGEST} and said.receipt == (LARGEST, "x") and said.aside == 3
    for odd in ({"place": LARGEST + 1, "link": "x"}, {"place": 0, "link": "x"}, {"place": -1, "link": "x"}):
        assert parse(asked(receipt=odd)).receipt == (0, "")
    assert parse(asked(receipt={"place": 1, "link": "x"})).receipt == (1, "x")
    assert parse(asked(follow=7)).follow == parse(asked(follow=[])).follow == {}
    assert parse(asked()).aside == 0 and parse(asked(receipt={"aside": "3"})).aside == 0
    assert parse(asked(brief=True)).brief and not parse(asked(brief=1)).brief


def event(**more) -> dict:
    return {"dev": "a" * 32, "n": 1, "build": BUILD, "type": "reading", "v": 1, "at": 0, "seen": 0, "body": {}} | more


@pytest.mark.parametrize("name, least, most", [("n", 1, LARGEST), ("v", 1, 9_999), ("at", 0, LARGEST), ("seen", 0, LARGEST)])
def test_counts_have_ends(name, least, most):
    assert all(isinstance(read(event(**{name: at})), Draft) for at in (least, most))
    assert not any(isinstance(read(event(**{name: at})), Draft) for at in (least - 1, most + 1))


def test_an_entry_of_exactly_the_largest_size_is_taken():
    bare = len(read(event(body={"x": ""})).raw)
    assert len(read(event(body={"x": "y" * (EVENT_BYTES - bare)})).raw) == EVENT_BYTES
    assert read(event(body={"x": "y" * (EVENT_BYTES - bare + 1)})).kind == "too_big"


def test_a_body_of_exactly_the_deepest_kind_is_taken():
    def deep(levels: int) -> dict:
        body: dict = {}
        for _ in range(levels - 1):
            body = {"a": body}
        return body

    assert isinstance(read(event(body=deep(DEPTH))), Draft)
    assert read(event(body=deep(DEPTH + 1))).kind == "malformed"


def test_names_have_a_length():
    assert all(isinstance(read(event(**good)), Draft) for good in ({"build": "b-" + "x" * 38}, {"type": "a" * 40}))
    assert not any(isinstance(read(event(**bad)), Draft) for bad in ({"build": "b-" + "x" * 39}, {"type": "a" * 41}, {"build": "b-"}))


def test_a_waiting_count_of_six_digits_is_believed(builder):
    for said, held in (("999999", 999_999), ("1000000", 0), ("7", 7)):
        builder.sync(**{"Halfthou-Waiting": said})
        assert Device.objects.get().waiting == held


def test_the_server_says_its_time_in_milliseconds(builder):
    assert abs(builder.sync().json()["time"] - time.time() * 1000) < 60_000


def test_a_file_of_more_than_one_batch_is_taken_whole(builder):
    builder.sync(builder.opening())
    many = [builder.event() for _ in range(MOST_EVENTS + 1)]
    answer = bring(builder, lines(*many))
    assert answer.status_code == 200 and answer.json()["stored"] == MOST_EVENTS + 1
    assert bring(builder, lines(*many)).json()["known"] == MOST_EVENTS + 1
    assert Event.objects.count() == MOST_EVENTS + 2


def test_a_stranger_to_the_protocol_is_told_to_update():
    for body in (b"[]", b"7", b'{"events":{}}', b'{"entries":7}'):
        with pytest.raises(Refused) as refusal:
            parse(body)
        assert refusal.value.status == 400 and "Update" in refusal.value.sentence
