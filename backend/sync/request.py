"""Reading the body of a sync. Law: whatever arrives, the phone gets an answer it can act on.

Unreadable: 400. Too big to take whole: 413, and the phone halves. What cannot be halved is read: a lone event that is too
large by itself is put aside, and the queue behind it moves on.
"""
import json
from typing import NamedTuple

from record.shape import LARGEST, Draft, Misfit, read

MOST_EVENTS = 500
MOST_BYTES = 256 * 1024

UNREADABLE = "The request broke off or is not readable JSON. Send it again whole."
NOT_AN_OBJECT = "The request is not an object with “dev”, “events” and “follow”. Update the app."
HALVE = f"The batch is larger than {MOST_EVENTS} events or {MOST_BYTES // 1024} KB. Send half of it."


class Refused(Exception):
    def __init__(self, status: int, sentence: str):
        super().__init__(sentence)
        self.status, self.sentence = status, sentence


class SyncRequest(NamedTuple):
    dev: object
    epoch: object
    events: list
    follow: dict[str, int]
    heads: dict[str, str]  # what the phone holds as the chain at each of those positions
    receipt: tuple[int, str]  # how many of its own events it knows to be stored, and the chain over them
    aside: int  # and how many things of its own it knows to be put aside
    brief: bool  # of what is stored now, the phone needs no more than position and mark

    def things(self) -> list[Draft | Misfit]:
        return [read(e) for e in self.events]


def parse(body: bytes) -> SyncRequest:
    """Refused with 400 or 413 when the batch as a whole cannot be taken."""
    asked = _loads(body)
    if not isinstance(asked, dict) or not all(isinstance(asked.get(name, []), list) for name in ("events", "entries")):
        raise Refused(400, NOT_AN_OBJECT)
    events = [_spelt_out(row, asked.get("dev")) for row in asked.get("entries", [])] + asked.get("events", [])
    if len(events) > MOST_EVENTS or (len(body) > MOST_BYTES and len(events) > 1):
        raise Refused(413, HALVE)
    return SyncRequest(asked.get("dev"), asked.get("epoch"), events, _follow(asked.get("follow")),
                       _heads(asked.get("heads")), _receipt(asked.get("receipt")),
                       _aside(asked.get("receipt")), asked.get("brief") is True)


def _spelt_out(row: object, dev: object) -> object:
    """A phone's own entry, sent as a bare row, as the event that it stands for."""
    if not isinstance(row, list) or len(row) != 7:
        return row
    n, build, type, v, at, seen, body = row
    return {"dev": dev, "n": n, "build": build, "type": type, "v": v, "at": at, "seen": seen, "body": body}


def _loads(body: bytes) -> object:
    try:
        return json.loads(body.decode("utf-8"), parse_int=whole)
    except (ValueError, RecursionError):
        raise Refused(400, UNREADABLE) from None


def whole(digits: str) -> int | float:
    # Absurdly long numbers become something no event may hold, so that one such event does not spoil its batch.
    return int(digits) if len(digits) <= 40 else float("inf")


def _follow(asked: object) -> dict[str, int]:
    if not isinstance(asked, dict):
        return {}
    return {key: seq for key, seq in asked.items() if type(seq) is int and 0 <= seq <= LARGEST}


def _heads(asked: object) -> dict[str, str]:
    return {key: head for key, head in asked.items() if isinstance(head, str)} if isinstance(asked, dict) else {}


def _receipt(asked: object) -> tuple[int, str]:
    place, link = (asked.get("place"), asked.get("link")) if isinstance(asked, dict) else (0, "")
    return (place, link) if type(place) is int and 0 < place <= LARGEST and isinstance(link, str) and "\x00" not in link else (0, "")


def _aside(asked: object) -> int:
    count = asked.get("aside") if isinstance(asked, dict) else 0
    return count if type(count) is int else 0
