"""What is said of a file, word for word, and where its bounds lie."""

import json
from io import StringIO

import pytest
from django.core.management import call_command
from django.http import HttpRequest, UnreadablePostError

from record.models import Event
from tests.record.world import Phone

from .test_files import bring, lines

pytestmark = pytest.mark.django_db

NOT_TEXT = "This is not a file of entries: it is not readable as text. Choose the file that the phone exported."
WORDS = {
    b"\xff\xfe": NOT_TEXT,
    b'{"a":"\x00"}\n': NOT_TEXT,
    b'{"file":"something-else","v":1,"events":0}\n': NOT_TEXT,
    b'{"file":"halfthou-events","v":2,"events":0}\n': "This file comes from a newer version of the app. Update the server first.",
    b'{"file":"halfthou-events","v":1,"events":2}\n{}\n': "The file ends early: it says 2 entries and holds 1. Export it again on the phone.",
    b'{"file":"halfthou-events","v":1,"events":0}\n': "There is no entry in this file. Export it again on the phone.",
    b"\n[1,2]\n": "Line 2 is not an entry. Choose the file that the phone exported.",
    b"7\n": "Line 1 is not an entry. Choose the file that the phone exported.",
    b'{"a":1}\n\n{"a":': "Line 3 is not whole. Export the file again on the phone.",
}


@pytest.mark.parametrize(("raw", "words"), WORDS.items())
def test_every_fault_has_its_sentence(builder, raw, words):
    answer = bring(builder, raw)
    assert (answer.status_code, answer.json()) == (400, {"error": words})


def test_a_line_that_is_no_entry_says_why(builder):
    answer = bring(builder, lines(builder.event(n=0)))
    assert answer.json()["error"] == "Line 2 is not an entry of this app: Its “n” is not a count from 1. Nothing of the file was taken in."


def test_four_megabytes_are_read_and_one_byte_more_is_not(builder):
    assert bring(builder, b" " * 4_194_304).json() == {"error": WORDS[b'{"file":"halfthou-events","v":1,"events":0}\n']}
    answer = bring(builder, b" " * 4_194_305)
    assert (answer.status_code, answer.json()) == (
        413,
        {"error": "The file is larger than 4 MB. Export it in parts, or have the server's keeper import it."},
    )


@pytest.mark.parametrize("path", ["/api/sync", "/api/import"])
def test_a_request_that_broke_off_is_sent_again_whole(builder, monkeypatch, path):
    def broken(_):
        raise UnreadablePostError

    monkeypatch.setattr(HttpRequest, "body", property(broken))
    answer = builder.post(path, b"{}")
    assert (answer.status_code, answer.json()) == (400, {"error": "The request broke off or is not readable JSON. Send it again whole."})


def test_a_batch_too_large_for_the_door_is_halved(builder):
    answer = builder.post("/api/sync", b" " * 4_194_305)
    assert (answer.status_code, answer.json()) == (413, {"error": "The batch is larger than 500 events or 256 KB. Send half of it."})


def test_new_known_and_put_aside_are_counted_apart(builder):
    known = builder.opening()
    builder.sync(known)
    answer = bring(builder, lines(known, builder.event(), builder.event(), builder.event(build="b-elsewhere")))
    assert answer.json() == {
        "stored": 2,
        "known": 1,
        "aside": 1,
        "says": "2 entries taken in; 1 were here already. 1 could not join a build and are kept aside.",
    }


def test_a_file_of_one_entry_by_command(builder, tmp_path):
    file, out = tmp_path / "phone.jsonl", StringIO()
    file.write_bytes(lines(builder.opening()))
    call_command("import_events", str(file), "--as", "owner-tern-hollow", stdout=out)
    assert "1 entries taken in; 0 were here already." in out.getvalue()


def test_by_command_the_first_writer_of_a_file_brings_it(builder, tern, tmp_path):
    """What cannot join a build lies aside under the phone that wrote the first line."""
    second, file = Phone("builder-tern-hollow"), tmp_path / "phones.jsonl"
    file.write_bytes(lines(builder.opening(), second.event(), second.event(build="b-elsewhere")))
    call_command("import_events", str(file), "--as", "owner-tern-hollow", stdout=StringIO())
    asides = [phone.sync().json()["device"]["aside"] for phone in (builder, second)]
    assert asides == [1, 0] and Event.objects.count() == 2


@pytest.mark.parametrize(("digits", "taken"), [(40, True), (41, False)])
def test_forty_digits_are_a_number_in_a_file_too(builder, digits, taken):
    builder.sync(builder.opening())
    answer = bring(builder, lines(builder.event(body={"value": json.loads("9" * digits)})))
    assert (answer.status_code == 200) == taken
