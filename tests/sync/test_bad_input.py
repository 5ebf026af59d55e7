"""Whatever is sent: an answer per event, the rest stored, never a 500, never a blocked queue."""

import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from record.models import Build, Event, Quarantine
from record.shape import EVENT_BYTES, Draft, read
from sync.request import MOST_EVENTS, Refused, parse
from tests.record.world import BUILD, Phone

pytestmark = pytest.mark.django_db

WRONG = {
    "not an object": lambda e: "text",
    "null": lambda e: None,
    "a list": lambda e: [],
    "empty": lambda e: {},
    "no body": lambda e: {k: v for k, v in e.items() if k != "body"},
    "body is a list": lambda e: e | {"body": []},
    "body is null": lambda e: e | {"body": None},
    "another phone": lambda e: e | {"dev": "0" * 32},
    "dev not hex": lambda e: e | {"dev": "Z" * 32},
    "dev a list": lambda e: e | {"dev": ["a"]},
    "n zero": lambda e: e | {"n": 0},
    "n negative": lambda e: e | {"n": -1},
    "n true": lambda e: e | {"n": True},
    "n a fraction": lambda e: e | {"n": 1.5},
    "n text": lambda e: e | {"n": "1"},
    "n beyond counting": lambda e: e | {"n": 2**53},
    "n very long": lambda e: e | {"n": 10**60},
    "foreign build": lambda e: e | {"build": "b-not-here"},
    "build not an id": lambda e: e | {"build": "../etc"},
    "build with nul": lambda e: e | {"build": "b-\x00"},
    "type not a name": lambda e: e | {"type": "Drop Table"},
    "type empty": lambda e: e | {"type": ""},
    "type too long": lambda e: e | {"type": "a" * 41},
    "v zero": lambda e: e | {"v": 0},
    "v huge": lambda e: e | {"v": 2**40},
    "at text": lambda e: e | {"at": "now"},
    "at negative": lambda e: e | {"at": -1},
    "seen missing": lambda e: {k: v for k, v in e.items() if k != "seen"},
    "fraction in the body": lambda e: e | {"body": {"x": 0.1}},
    "half a character": lambda e: e | {"body": {"text": "\ud800"}},
    "half a character as a name": lambda e: e | {"body": {"\udfff": 1}},
    "nested deep": lambda e: e | {"body": json.loads('{"a":' * 60 + "1" + "}" * 60)},
    "too big": lambda e: e | {"body": {"text": "x" * EVENT_BYTES}},
}


@pytest.mark.parametrize("wrong", WRONG.values(), ids=WRONG)
def test_a_wrong_event_is_put_aside_and_the_rest_is_stored(builder, wrong):
    before, bad, after = builder.opening(), wrong(builder.event()), builder.event()
    answer = builder.sync(before, bad, after)
    assert answer.status_code == 200, answer.content
    verdicts = answer.json()["verdicts"]
    assert [v["verdict"] for v in verdicts] == ["stored", "quarantined", "stored"]
    assert verdicts[1]["why"].endswith(".")
    row = Quarantine.objects.get()
    assert len(bytes(row.raw)) > 0
    assert builder.verdicts(bad) == ["quarantined"] and Quarantine.objects.count() == 1


@pytest.mark.parametrize("row", [[7, BUILD], [], "text", {"n": 7}], ids=str)
def test_a_short_row_of_another_shape_is_kept_as_it_came(builder, row):
    answer = builder.post("/api/sync", {"dev": builder.dev, "epoch": "", "entries": [row], "follow": {}})
    assert [v["verdict"] for v in answer.json()["verdicts"]] == ["quarantined"]
    assert json.loads(bytes(Quarantine.objects.get().raw)) == row


@pytest.mark.parametrize(
    "event",
    [
        {"type": "sound.recorded", "v": 7, "body": {"anything": [1, {"deep": None}]}},
        {"type": "reading", "body": {}},
        {"type": "reading", "body": {"point": 7, "station": None, "text": [], "unit": {}}},
        {"type": "reading", "body": {"point": "p" * 300, "station": "s" * 300, "text": "\x00" * 90, "unit": "u" * 90}},
        {"type": "reading", "body": {"point": "main_journal", "station": "1", "text": "9" * 400, "unit": "in"}},
        {"type": "parts.put", "body": {"puts": "all"}},
        {"type": "concession", "body": {"value": 10**39}},
        {"type": "strike", "body": {"event": "no:1", "why": ""}},
        {"type": "build.opened", "body": {"name": 7, "procedure": None, "revision": "x", "duty": []}},
    ],
)
def test_strange_but_whole_events_are_stored_and_reviewed(builder, event, django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True):
        assert builder.verdicts(builder.opening(), builder.event(**event)) == ["stored", "stored"]
    build = Build.objects.get()
    assert (build.dirty, build.status.seq) == (False, 2)
    assert not [f for f in build.status.said["findings"] if f["check"] in ("not_checked", "no_procedure")]
    assert builder.get("/api/board").status_code == builder.get(f"/api/builds/{BUILD}/sheet").status_code == 200


@pytest.mark.parametrize(
    "body",
    [
        {"name": "\x00", "procedure": "\x00", "revision": 10**30, "duty": "\x00"},
        {},
        {"name": ["x"], "revision": True},
        {"name": "n" * 500, "procedure": "nobody-wrote-it", "revision": 3, "duty": "race"},
    ],
)
def test_a_strange_opening_makes_a_build_that_says_so(builder, body, django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True):
        assert builder.verdicts(builder.event("build.opened", body)) == ["stored"]
    finding = builder.get("/api/board").json()["builds"][0]["findings"][0]
    assert finding["check"] == "no_procedure" and "procedure" in finding["says"]


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"{",
        b"[1",
        b"\xff",
        b"nul",
        b'{"dev":"x","events":[{"a":1}',
        b"[" * 100_000,
        b"7",
        b"null",
        b"[]",
        b'"x"',
        b'{"events":{}}',
        b'{"events":7}',
        b'{"events":null}',
        b"<html><body>log in to the network</body></html>",
    ],
)
def test_an_unreadable_body_is_a_400_with_a_sentence(builder, body):
    answer = builder.post("/api/sync", body)
    assert answer.status_code == 400 and answer.json()["error"].endswith(".")


@pytest.mark.parametrize("follow", [None, [], 7, "x", {"b-x": "1"}, {"b-x": -1}, {"\x00": 2}, {"b-x": 2**60}, {"b-x": None}])
def test_a_strange_cursor_is_ignored(builder, follow):
    asked = {"dev": builder.dev, "epoch": [1], "events": [], "follow": follow}
    assert builder.post("/api/sync", asked).status_code == 200


def test_short_rows_are_the_same_events(builder):
    names = ("n", "build", "type", "v", "at", "seen", "body")
    opening, event = builder.opening(), builder.event()
    rows = [[e[name] for name in names] for e in (opening, event)]
    asked = {"dev": builder.dev, "epoch": "", "events": [], "entries": [*rows, [1, 2], "x", None], "follow": {}}
    verdicts = builder.post("/api/sync", asked).json()["verdicts"]
    assert [v["verdict"] for v in verdicts] == ["stored", "stored"] + ["quarantined"] * 3
    assert builder.verdicts(opening, event) == ["duplicate"] * 2
    assert builder.post("/api/sync", asked | {"entries": 7}).status_code == 400


def test_too_many_events_are_sent_back_to_be_halved(builder):
    opening = builder.opening()
    answer = builder.sync(opening, *[builder.event() for _ in range(MOST_EVENTS)])
    assert answer.status_code == 413 and "half" in answer.json()["error"]
    assert Event.objects.count() == 0


def test_too_many_bytes_are_sent_back_until_one_event_is_left(builder):
    big = [builder.event(body={"text": "x" * 200_000}) for _ in range(2)]
    assert builder.sync(*big).status_code == 413
    assert builder.verdicts(big[0]) == ["quarantined"]
    assert builder.verdicts(builder.event(body={"text": "x" * 400_000})) == ["quarantined"]
    assert builder.post("/api/sync", b" " * 5_000_000).status_code == 413


def test_a_strange_waiting_count_is_ignored(builder):
    for waiting in ("-1", "x", "9" * 30, "1.5", "٣", ""):
        assert builder.sync(**{"Halfthou-Waiting": waiting}).status_code == 200


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)
NEARLY = st.fixed_dictionaries({}, optional={name: JSON for name in ("dev", "n", "build", "type", "v", "at", "seen", "body")})


@given(st.binary(max_size=200))
def test_no_bytes_break_the_reading_of_a_request(body):
    try:
        parse(body)
    except Refused as refusal:
        assert refusal.status in (400, 413)


@given(JSON | NEARLY)
def test_no_thing_breaks_the_reading_of_an_event(thing):
    got = read(thing)
    assert isinstance(got, Draft) or got.why


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(JSON | NEARLY, min_size=1, max_size=4))
def test_random_batches_get_a_verdict_each(builder: Phone, things):
    answer = builder.sync(*things)
    assert answer.status_code == 200 and len(answer.json()["verdicts"]) == len(things)
