"""Law: what the server stored, and how it stamped it, cannot change unseen.

Each event carries a seal over its bytes and stamps. Seals are chained twice: within the build (the head that is printed
on the sheet) and within the device it came from. An event altered, dropped, swapped or cut off breaks a seal, a chain or
a count; whoever rewrites all of them still meets the heads on paper and on the phones.
"""
import hashlib
import hmac
from datetime import datetime, UTC
from functools import lru_cache
from json.encoder import encode_basestring as quoted
from typing import Any

MARK_DIGITS = 32


def digest(raw: bytes) -> str:
    return hashlib.sha256(raw).hexdigest()


def seal(event: Any) -> str:
    """SHA-256 over what the server vouches for, as a JSON list. Takes a row, or anything with its attributes."""
    stamps = (f'[{event.build_id},{event.seq},{quoted(event.dev)},{event.n},{event.place},{quoted(event.who)},{quoted(event.role)},'
              f'{event.person_id},{quoted(event.carried)},"{moment(event.received)}",{quoted(event.hash)}]')
    return digest(stamps.encode("utf-8", "surrogatepass"))


@lru_cache
def moment(at: datetime) -> str:
    """Kept for a while: the events of a batch were received at the same moment."""
    return at.astimezone(UTC).isoformat(timespec="microseconds")


def next_link(before: str, what: str) -> str:
    """The chain after one more event: SHA-256 over the chain before it and the event's own, both in hex."""
    return digest((before + what).encode())


def joins(build: Any, seq: int, hash: str, sealed: str) -> str:
    """What joins a build's chain at this position: the seal; the bare hash in builds begun before there were seals."""
    return sealed if seq >= build.sealed_from else hash


def mark(key: str, *, dev: str, n: int, who: str, role: str, carried: str, hash: str) -> str:
    """The server's own signature on an event and its author, so that another phone may bring it back after a restore."""
    text = f"[{quoted(dev)},{n},{quoted(who)},{quoted(role)},{quoted(carried)},{quoted(hash)}]".encode("utf-8", "surrogatepass")
    return hmac.digest(key.encode(), text, "sha256").hex()[:MARK_DIGITS]
