"""What one build's diary writes: bodies of events, as a phone would write them.

Law: an entry of the diary is a mapping with one verb; the verb's function in `verbs/` writes its events through a Pen.
"""
from collections.abc import Callable
from dataclasses import dataclass, field

from . import clock


@dataclass
class Phone:
    """A device that numbers its own events."""

    dev: str
    n: int = 0


@dataclass
class Pen:
    """One build being written. `told` is its file; `phone` and `at` are those of the turn at the bench that is being told."""

    told: dict
    procedure: dict
    phone: Phone = field(default_factory=lambda: Phone(""))
    at: int = 0
    seen: int = 0
    events: list[dict] = field(default_factory=list)
    last: dict[str, str] = field(default_factory=dict)  # what was written last about a spot or a fit: its event's id

    def takes_up(self, phone: Phone, at: int) -> None:
        """Somebody comes to the bench; his phone has all that was stored before."""
        self.phone, self.at, self.seen = phone, at, len(self.events)

    def write(self, kind: str, body: dict, about: str = "") -> None:
        self.phone.n += 1
        self.at += clock.takes(kind, self.phone.n)
        self.events.append({"dev": self.phone.dev, "n": self.phone.n, "build": self.told["key"], "type": kind, "v": 1, "at": self.at,
                            "seen": self.seen, "body": body})
        if about:
            self.last[about] = f"{self.phone.dev}:{self.phone.n}"

    def step(self, name: str) -> dict:
        return next(step for step in self.procedure["steps"] if step["id"] == name)

    def stations(self, table: str, name: str) -> list[str]:
        """Of a point, a slot or a fit; one without a name where it has none."""
        group = self.procedure[table][name]["group"]
        return [s["id"] for s in self.procedure["groups"][group]["stations"]] if group else [""]


Verb = Callable[[Pen, dict], None]


def spot(name: str, station: str) -> str:
    return f"{name}@{station}" if station else name


def place(text: str) -> tuple[str, str]:
    """`gap_top@6` or `crank_float` as name and station."""
    name, _, station = text.partition("@")
    return name, station
