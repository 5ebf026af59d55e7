"""The demo's builds as they were worked on, one YAML file each in `builds/`: turns at the bench, each with its entries.

Law: a file tells who did what and when; the procedure says what a step asks. The same files on the same day give the same events.
"""
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

import yaml

from catalogue import library

from . import clock, world
from .pen import Pen, Phone
from .verbs import tell

BUILDS = Path(__file__).parent / "builds"
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@lru_cache(maxsize=1)
def files() -> list[dict]:
    return [yaml.load(path.read_text(encoding="utf-8"), Loader=_LOADER) for path in sorted(BUILDS.glob("*.yaml"))]


def keys() -> list[str]:
    return [told["key"] for told in files()]


def batches(told: dict, midnight: int, times: int = 0) -> Iterator[tuple[str, list[dict]]]:
    """(who, events) of one build, turn by turn: what one person did at it without a break is sent together.

    `times`: how often the demo was begun afresh before.
    """
    # Each file has numbers of its own, so that a build added to the demo later never takes one that was used.
    phones = {who: Phone(world.number_of(dev, times), told["numbers_from"]) for who, (dev, _) in world.PHONES.items()}
    pen = Pen(told, library.load_all()[told["procedure"], told["revision"]])
    for number, turn in enumerate(told["diary"]):
        pen.takes_up(phones[turn["who"]], clock.moment(midnight, turn["day"], turn["at"]))
        for entry in ([] if number else [{"opens": told["key"]}]) + turn["does"]:
            tell(pen, entry)
        yield turn["who"], pen.events[pen.seen:]
