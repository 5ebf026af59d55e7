"""The demo's builds as they were worked on, one YAML file each in `builds/`: turns at the bench, each with its entries.

Law: a file tells who did what and when; the procedure says what a step asks. The same files on the same day give the same events.
"""
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import yaml

from catalogue import library

from . import clock, world
from .pen import Pen, Phone
from .verbs import tell

BUILDS = Path(__file__).parent / "builds"
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True)
class Turn:
    """One person at one build, without a break: what is sent together."""

    build: str
    who: str
    at: int
    entries: list[dict]


@lru_cache(maxsize=1)
def files() -> list[dict]:
    return [yaml.load(path.read_text(encoding="utf-8"), Loader=_LOADER) for path in sorted(BUILDS.glob("*.yaml"))]


def keys() -> list[str]:
    return [told["key"] for told in files()]


def batches(midnight: int) -> Iterator[tuple[str, list[dict]]]:
    """(who, events), turn by turn as they happened, all builds together: a phone counts its events over all of them."""
    phones = {who: Phone(dev) for who, (dev, _) in world.PHONES.items()}
    pens = {told["key"]: _pen(told) for told in files()}
    for turn in sorted(_turns(midnight), key=lambda turn: turn.at):
        pen = pens[turn.build]
        pen.takes_up(phones[turn.who], turn.at)
        for entry in turn.entries:
            tell(pen, entry)
        yield turn.who, pen.events[pen.seen:]


def _pen(told: dict) -> Pen:
    return Pen(told, library.load_all()[told["procedure"], told["revision"]])


def _turns(midnight: int) -> Iterator[Turn]:
    for told in files():
        for number, turn in enumerate(told["diary"]):
            entries = ([{"opens": told["key"]}] if number == 0 else []) + turn["does"]
            yield Turn(told["key"], turn["who"], clock.moment(midnight, turn["day"], turn["at"]), entries)
