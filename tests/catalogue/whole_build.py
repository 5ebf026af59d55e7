"""A whole build, walked step by step through the kernel with plausible invented readings."""

from __future__ import annotations

import json
from collections.abc import Mapping

from catalogue.units import factor
from kernel.fits import figure, fit_everywhere
from kernel.fold import Build
from kernel.order import closed_gates
from kernel.view.lens import Lens
from kernel.view.overview import overview
from kernel.view.step_view import step_view

from ..kernel.bench import METRIC, NOW, PEOPLE, Bench

Texts = Mapping[str, "str | list[str]"]  # point or slot -> one text for every station, or one text a station


def each(texts: str | list[str], stations: list[str]) -> list[tuple[str, str, str]]:
    """(station, number, unit) for every station."""
    given = [texts] * len(stations) if isinstance(texts, str) else texts
    return [(station, *text.split(" ", 1)) for station, text in zip(stations, given, strict=True)]  # type: ignore[misc]


def asked(step: dict, item: str) -> dict:
    """An item of a step's list."""
    return next(c for c in step["confirms"] if c["id"] == item)


def holds(builder: Builder) -> list[str]:
    """What the review of the whole build would hold it for."""
    return [f["says"] for f in builder.bench.ask("review")["findings"] if f["level"] == "hold"]


class Builder:
    """Somebody who has chosen, measured and read everything that a procedure asks for."""

    def __init__(self, procedure: dict, choices: Mapping[str, str], readings: Texts, sizes: Texts, duty: str = "race"):
        self.bench = Bench(procedure, duty)
        self.choices, self.readings, self.sizes = choices, readings, sizes
        self.folded, self.told = Build(procedure), 0

    def does(self, step: dict) -> None:
        """All that is required of a step, and the sizes of parts that may be measured at it."""
        for choice in step["asks"]:
            self.bench.marek.write("choice.made", choice=choice, option=self.choices[choice])
        self.bench.marek.ticks(step["id"])
        for point in step["reads"]:
            self.reads(point)
        for slot in step["may_measure"]:
            if slot in self.sizes:
                self.measures(slot)
        if step["torque"]:
            self.bench.marek.pulls(step["id"])

    def reads(self, point: str, texts: str | list[str] | None = None) -> None:
        for station, text, unit in each(texts or self.readings[point], self.bench.stations(point)):
            self.bench.marek.write("reading", point=point, station=station, text=text, unit=unit)

    def measures(self, slot: str) -> None:
        """The size of the parts that came with a slot."""
        group = self.bench.procedure["slots"][slot]["group"]
        stations = [s["id"] for s in self.bench.procedure["groups"][group]["stations"]] if group else [""]
        for station, text, unit in each(self.sizes[slot], stations):
            part = f"{slot}@{station}" if station else slot
            self.bench.marek.write("part.measured", part=part, text=text, unit=unit)

    def walks(self) -> None:
        """From the first step to the last, each one coming up in its turn, unheld, and ending done."""
        for step in self.bench.procedure["steps"]:
            assert overview(self.lens())["next"] == step["id"], step["id"]
            assert step_view(self.lens(), step["id"])["holds"] == [], step["id"]
            self.does(step)
            assert step_view(self.lens(), step["id"])["status"] == "done", step["id"]
        assert overview(self.lens())["next"] is None

    def works(self, until: str = "") -> None:
        """Every step up to and with `until` (all of them without it), nothing asserted on the way."""
        for step in self.bench.procedure["steps"]:
            self.does(step)
            if step["id"] == until:
                return

    def tells(self) -> None:
        """Every choice, reading and size there is, whatever step it belongs to."""
        for choice, option in self.choices.items():
            self.bench.marek.write("choice.made", choice=choice, option=option)
        for point in self.readings:
            self.reads(point)
        for slot in self.sizes:
            self.measures(slot)

    def closed(self, step: str) -> list[dict]:
        """The fits that keep a step's gates shut."""
        return closed_gates(self.build(), self.bench.step(step))

    def build(self) -> Build:
        """The build, kept folded and told of what is new, as on a phone."""
        new = self.bench.events[self.told:]
        self.told += len(new)
        self.folded.add(json.loads(json.dumps(new)))
        return self.folded

    def lens(self) -> Lens:
        return Lens(self.build(), METRIC, NOW, PEOPLE)

    def fits(self, name: str) -> list[dict]:
        """A fit at each of its stations, as the kernel judges it."""
        return fit_everywhere(self.build(), name)

    def value(self, name: str, unit: str, station: str = "") -> float:
        """The figure of a fit in a unit."""
        found = figure(self.build(), name, station)
        assert found["state"] == "read", (name, found)
        return float(found["value"] / factor(unit))
