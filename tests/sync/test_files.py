"""The file fallback: the same guarantees as a push; what is wrong with a file is said, and changes nothing."""

import json
from io import StringIO

import pytest
from django.core.management import CommandError, call_command
from django.db import OperationalError

from record.models import Build, Event, Quarantine
from record.verify import flaws
from shop.models import Device
from sync import files
from tests.record.world import BUILD, Phone

pytestmark = pytest.mark.django_db


def lines(*events: object, who: str = "builder", heading: bool = True) -> bytes:
    said = [e | {"who": who, "role": "builder"} if isinstance(e, dict) else e for e in events]
    first = [{"file": "halfthou-events", "v": 1, "events": len(events)}] if heading else []
    return "".join(json.dumps(line) + "\n" for line in first + said).encode()


def bring(phone: Phone, raw: bytes):
    return phone.post("/api/import", raw)


@pytest.fixture
def owner_phone(owner):
    return owner


def test_an_owner_brings_what_a_builder_wrote(builder, owner):
    file = lines(builder.opening(), builder.event(), builder.event())
    answer = bring(owner, file)
    assert (answer.status_code, answer.json()) == (200, {"stored": 3, "known": 0, "aside": 0, "says": "3 entries taken in; 0 were here already."})
    assert set(Event.objects.values_list("who", "role", "carried", "dev")) == {("builder", "builder", "owner", builder.dev)}
    assert bring(owner, file).json()["known"] == 3
    assert list(flaws()) == []


def test_before_and_after_a_push(builder):
    events = [builder.opening(), builder.event(), builder.event()]
    builder.sync(*events[:2])
    assert bring(builder, lines(*events, heading=False)).json()["stored"] == 1
    assert builder.verdicts(*events) == ["duplicate"] * 3
    assert set(Event.objects.values_list("who", "carried")) == {("builder", "")}


def test_who_wrote_it_on_a_shared_phone_is_kept(builder, owner):
    builder.sync(builder.opening())
    builder.log_in("owner-tern-hollow")
    assert bring(builder, lines(builder.event())).status_code == 200
    assert list(Event.objects.order_by("seq").values_list("who", "carried")) == [("builder", ""), ("builder", "owner")]


def test_a_file_for_a_build_not_opened_yet_waits_for_it(builder, owner):
    opening = builder.opening()
    assert bring(owner, lines(builder.event())).json()["aside"] == 1
    builder.sync(opening)
    owner.sync()
    assert list(Event.objects.order_by("seq").values_list("n", "who", "carried")) == [(1, "builder", ""), (2, "builder", "owner")]


def test_a_fork_is_kept_aside(builder, owner):
    event = builder.event()
    builder.sync(builder.opening(), event)
    assert bring(owner, lines(event | {"at": 7})).json()["aside"] == 1
    assert Quarantine.objects.get().kind == "fork"


WRONG = {
    "empty": lambda b: b"",
    "only a heading": lambda b: lines(),
    "blank": lambda b: b"\n\n  \n",
    "binary": lambda b: bytes(range(256)) * 40,
    "with nul": lambda b: b'{"a":"\x00"}\n',
    "a picture": lambda b: b"\x89PNG\r\n\x1a\n" + b"\x00" * 100,
    "a page": lambda b: b"<html><body>log in</body></html>",
    "a list": lambda b: b"[1,2]\n",
    "another's heading": lambda b: b'{"file":"something-else","v":1,"events":0}\n',
    "newer": lambda b: b'{"file":"halfthou-events","v":2,"events":0}\n',
    "cut at a line": lambda b: b"".join(lines(b.event(), b.event()).splitlines(keepends=True)[:-1]),
    "cut in a line": lambda b: lines(b.event(), b.event(), heading=False)[:-9],
    "cut in a line, with heading": lambda b: lines(b.event(), b.event())[:-9],
    "a line twice": lambda b: lines(b.event()) + lines(b.event(), heading=False),
    "foreign": lambda b: lines(b.event() | {"dev": "e" * 32}),
    "of nobody": lambda b: lines(b.event(), who="nobody"),
    "of somebody else": lambda b: lines(b.event(), who="owner"),
    "deep": lambda b: b'{"a":' * 50_000 + b"1" + b"}" * 50_000,
    "deep in the body": lambda b: lines(b.event() | {"body": json.loads('{"a":' * 60 + "1" + "}" * 60)}),
    "a number of a million digits": lambda b: b'{"n":' + b"9" * 1_000_000 + b"}\n",
    "a large event": lambda b: lines(b.event() | {"body": {"x": "y" * 70_000}}),
    "fraction": lambda b: lines(b.event() | {"body": {"x": 0.5}}),
}


@pytest.mark.parametrize("wrong", WRONG.values(), ids=WRONG)
def test_a_wrong_file_is_refused_with_a_sentence_and_no_change(builder, wrong):
    builder.sync(builder.opening())
    before = Build.objects.values().get()
    answer = bring(builder, wrong(builder))
    assert answer.status_code == 400 and answer.json()["error"].endswith("."), answer.content
    assert (Event.objects.count(), Quarantine.objects.count()) == (1, 0)
    assert Build.objects.values().get() == before


def test_a_huge_file_is_refused(builder):
    answer = bring(builder, b"x" * 5_000_000)
    assert answer.status_code == 413 and "larger" in answer.json()["error"]


def test_a_file_of_another_shop_is_foreign(builder, reed):
    stranger = Phone("owner-reed-bank")
    answer = bring(stranger, lines(builder.opening(), who="owner"))
    assert answer.status_code == 400 and "phone of this shop" in answer.json()["error"]


def test_a_bad_line_takes_the_good_ones_with_it(builder):
    answer = bring(builder, lines(builder.opening(), builder.event(), {"not": "an entry"}))
    assert "Line 4" in answer.json()["error"] and Event.objects.count() == 0


def test_many_lines_go_in_parts_but_whole(builder, monkeypatch):
    monkeypatch.setattr(files, "MOST_EVENTS", 3)
    assert bring(builder, lines(builder.opening(), *[builder.event() for _ in range(9)])).json()["stored"] == 10


def test_a_busy_database_is_said(builder, monkeypatch):
    def busy(*_, **__):
        raise OperationalError("database is locked")

    monkeypatch.setattr(files, "take", busy)
    assert bring(builder, lines(builder.opening())).status_code == 503


def test_the_command(builder, tmp_path):
    file, out = tmp_path / "phone.jsonl", StringIO()
    file.write_bytes(lines(builder.opening(), builder.event()))
    call_command("import_events", str(file), "--as", "owner-tern-hollow", stdout=out)
    assert "2 entries taken in" in out.getvalue() and Device.objects.get(dev=builder.dev).count == 2
    for file_, login, says in ((file, "nobody", "Nobody logs in"), (tmp_path / "no", "owner-tern-hollow", "cannot be read"),
                               (tmp_path, "owner-tern-hollow", "cannot be read")):  # fmt: skip
        with pytest.raises(CommandError, match=says):
            call_command("import_events", str(file_), "--as", login)
    file.write_bytes(b"nothing of ours")
    with pytest.raises(CommandError, match="not whole"):
        call_command("import_events", str(file), "--as", "owner-tern-hollow")
    assert Build.objects.get().key == BUILD
