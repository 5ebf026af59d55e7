"""A file of entries, one a line, as a phone exports them: the way round when a phone cannot reach the server.

Law: a file is taken in whole or not at all, through the same intake as a push; once, twice or after a push makes no
difference. What is wrong with it is said with its line.
"""
import json
from typing import NamedTuple

from django.db import transaction

from record import services
from record.carry import author_of
from record.shape import Draft, read
from shop.models import Device, Person

from .request import MOST_EVENTS, whole

KIND, VERSION = "halfthou-events", 1

TOO_BIG = "The file is larger than 4 MB. Export it in parts, or have the server's keeper import it."
NOT_TEXT = "This is not a file of entries: it is not readable as text. Choose the file that the phone exported."
EMPTY = "There is no entry in this file. Export it again on the phone."
NEWER = "This file comes from a newer version of the app. Update the server first."
CUT = "The file ends early: it says {} entries and holds {}. Export it again on the phone."


class Refused(Exception):
    """Carries the sentence the person reads. Nothing was changed."""


class Taken(NamedTuple):
    stored: int
    known: int
    aside: int

    @property
    def sentence(self) -> str:
        more = f" {self.aside} could not join a build and are kept aside." if self.aside else ""
        return f"{self.stored} entries taken in; {self.known} were here already.{more}"


@transaction.atomic
def take(raw: bytes, person: Person, device: Device | None = None) -> Taken:
    """Takes the file in on the word of `person`. `device`: the phone that brings it; left out, the one that wrote it."""
    drafts = entries(raw)
    devices = {d.dev: d for d in Device.objects.filter(shop=person.shop, dev__in={draft.dev for _, draft in drafts})}
    for line, draft in drafts:
        _vouched(line, draft, person, devices.get(draft.dev))
    brings = device or devices[drafts[0][1].dev]
    verdicts: list[services.Verdict] = []
    for at in range(0, len(drafts), MOST_EVENTS):
        part = [draft for _, draft in drafts[at:at + MOST_EVENTS]]
        verdicts += services.ingest(device=brings, person=person, things=list(part), claims=True)[:len(part)]
    stored, known = (sum(v.verdict == kind for v in verdicts) for kind in ("stored", "duplicate"))
    return Taken(stored, known, len(verdicts) - stored - known)


def entries(raw: bytes) -> list[tuple[int, Draft]]:
    """Every entry with the number of its line."""
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError:
        raise Refused(NOT_TEXT) from None
    if "\x00" in text:
        raise Refused(NOT_TEXT)
    lines = [(i, line) for i, line in enumerate(text.split("\n"), start=1) if line.strip()]
    things = [(i, _thing(i, line)) for i, line in lines]
    if things and "file" in things[0][1]:
        _check_heading(things[0][1], len(things) - 1)
        things = things[1:]
    if not things:
        raise Refused(EMPTY)
    return [(i, _draft(i, thing)) for i, thing in things]


def _thing(number: int, line: str) -> dict:
    try:
        thing = json.loads(line, parse_int=whole)
    except (ValueError, RecursionError):
        raise Refused(f"Line {number} is not whole. Export the file again on the phone.") from None
    if not isinstance(thing, dict):
        raise Refused(f"Line {number} is not an entry. Choose the file that the phone exported.")
    return thing


def _check_heading(heading: dict, found: int) -> None:
    if heading["file"] != KIND:
        raise Refused(NOT_TEXT)
    if heading.get("v") != VERSION:
        raise Refused(NEWER)
    if heading.get("events") != found:
        raise Refused(CUT.format(heading.get("events"), found))


def _draft(number: int, thing: dict) -> Draft:
    draft = read(thing)
    if not isinstance(draft, Draft):
        raise Refused(f"Line {number} is not an entry of this app: {draft.why} Nothing of the file was taken in.")
    return draft


def _vouched(line: int, draft: Draft, person: Person, device: Device | None) -> None:
    if device is None:
        raise Refused(f"Line {line} was not written on a phone of this shop. Log that phone in once, then import again.")
    if author_of(draft, person, device) is None:
        raise Refused(f"Line {line} was written by somebody else. He, or an owner, may bring it in.")
