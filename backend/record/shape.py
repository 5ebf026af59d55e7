"""What an event must look like to be stored. Law: the server judges the envelope only; what a body means is the kernel's.

A problem is a sentence, never an exception.
"""
import json
import re
from typing import NamedTuple

from kernel.canon import canon

from .chain import digest

WRITTEN = ("dev", "n", "build", "type", "v", "at", "seen", "body")
CLAIMED = ("who", "role", "carried", "mark")
LARGEST = 2**53 - 1  # what every phone can count exactly
EVENT_BYTES = 64 * 1024
DEPTH = 20

_DEV = re.compile(r"[0-9a-f]{32}")
_BUILD = re.compile(r"b-[a-z0-9-]{1,38}")
_TYPE = re.compile(r"[a-z][a-z0-9_.]{0,39}")


class Draft(NamedTuple):
    """A well-formed event and the bytes it is kept as."""

    dev: str
    n: int
    build: str
    type: str
    v: int
    at: int
    seen: int
    body: dict
    raw: bytes
    hash: str
    # Who is said to have written it, and the server's signature on that: only looked at when another phone brings it.
    claim: dict[str, str]

    @property
    def id_text(self) -> str:
        return f"{self.dev}:{self.n}"


class Misfit(NamedTuple):
    """Something that cannot be stored as an event, and the bytes to keep of it."""

    n: int | None
    kind: str
    why: str
    event: str
    raw: bytes


def read(thing: object) -> Draft | Misfit:
    """The event in `thing`, or why there is none."""
    why = _problem(thing)
    if why:
        return misfit(thing, "malformed", why)
    written = [thing[name] for name in WRITTEN]  # type: ignore[index]
    try:
        raw = _canonical(*written).encode()
    except (TypeError, UnicodeEncodeError, RecursionError):
        return misfit(thing, "malformed", "Its body holds something other than text, whole numbers, lists and objects.")
    if len(raw) > EVENT_BYTES:
        return misfit(thing, "too_big", f"It is larger than {EVENT_BYTES // 1024} KB.")
    return Draft._make([*written, raw, digest(raw), _claim(thing)])  # type: ignore[arg-type]


def _canonical(dev: str, n: int, build: str, type: str, v: int, at: int, seen: int, body: dict) -> str:
    """The kernel's `canon` of the whole event. What the rules let through around the body needs no escaping."""
    return f'{{"at":{at},"body":{canon(body)},"build":"{build}","dev":"{dev}","n":{n},"seen":{seen},"type":"{type}","v":{v}}}'


def read_kept(raw: bytes) -> Draft:
    """An event that was well-formed when it was put aside."""
    draft = read(json.loads(raw))
    assert isinstance(draft, Draft)
    return draft


def _claim(thing: dict) -> dict[str, str]:
    if "who" not in thing:  # a phone's own entry says nothing of its author
        return {}
    said = {name: thing.get(name) for name in CLAIMED}
    said["carried"] = said["carried"] or ""
    return {name: value for name, value in said.items() if isinstance(value, str) and len(value) <= 40 and _encodes(value)}


def _encodes(text: str) -> bool:
    return not any("\ud800" <= c <= "\udfff" or c == "\x00" for c in text)


def misfit(thing: object, kind: str, why: str) -> Misfit:
    n = thing.get("n") if isinstance(thing, dict) else None
    dev = thing.get("dev") if isinstance(thing, dict) else None
    return Misfit(n=n if _count(n) else None, kind=kind, why=why, event=_plain(f"{dev}:{n}")[:60], raw=_kept(thing))


def _problem(thing: object) -> str:
    if not isinstance(thing, dict):
        return "It is not an object."
    for name, fits, what in _RULES:
        if not fits(thing.get(name)):
            return f"Its “{name}” is not {what}."
    return f"Its body is nested more than {DEPTH} deep." if _too_deep(thing["body"]) else ""


def _count(value: object, least: int = 0) -> bool:
    return type(value) is int and least <= value <= LARGEST


def _matches(pattern: re.Pattern):
    return lambda value: isinstance(value, str) and pattern.fullmatch(value) is not None


_RULES = (
    ("dev", _matches(_DEV), "32 hex digits"),
    ("n", lambda v: _count(v, 1), "a count from 1"),
    ("build", _matches(_BUILD), "the id of a build"),
    ("type", _matches(_TYPE), "the name of a kind of event"),
    ("v", lambda v: _count(v, 1) and v < 10_000, "a version"),
    ("at", _count, "a time in milliseconds since 1970"),
    ("seen", _count, "a position in the record"),
    ("body", lambda v: isinstance(v, dict), "an object"),
)


def _too_deep(body: dict) -> bool:
    layer: list = [body]
    for _ in range(DEPTH):
        layer = [inner for outer in layer for inner in _inner(outer)]
        if not layer:
            return False
    return True


def _inner(outer: dict | list) -> list:
    return [v for v in (outer.values() if isinstance(outer, dict) else outer) if isinstance(v, (dict, list))]


def _plain(text: str) -> str:
    return "".join(c if c.isprintable() else "?" for c in text)


def _kept(thing: object) -> bytes:
    try:
        return json.dumps(thing).encode()
    except RecursionError:
        return b"nested too deep to write down"
