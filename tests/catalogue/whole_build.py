"""A whole build, walked step by step through the kernel with plausible invented readings."""

from __future__ import annotations

import json
from collections.abc import Mapping

from catalogue.units import factor
from kernel.fits import figure, fit_everywhere
from kernel.fold import Build

from ..kernel.bench import Bench

Texts = Mapping[str, "str | list[str]"]  # point or slot -> one text for every station, or one text a station


def each(texts: str | list[str], stations: list[str]) -> list[tuple[str, str, str]]:
    """(station, number, unit) for every station."""
    given = [texts] * len(stations) if isinstance(texts, str) else texts
    return [(station, *text.split(" ", 1)) for station, text in zip(stations, given, strict=True)]  # type: ignore[misc]


class Builder:
    """Somebody who has chosen, measured and read everything that a procedure asks for."""

    def __init__(self, procedure: dict, choices: Mapping[str, str], readings: Texts, sizes: Texts, duty: str = "race"):
        self.bench = Bench(procedure, duty)
        self.choices, self.readings, self.sizes = choices, readings, sizes

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
            view = self.bench.view(step["id"])
            assert self.bench.overview()["next"] == step["id"], step["id"]
            assert view["holds"] == [], (step["id"], view["holds"])
            self.does(step)
            assert self.bench.status(step["id"]) == "done", (step["id"], self.bench.view(step["id"]))
        assert self.bench.overview()["next"] is None

    def works(self, until: str = "") -> None:
        """Every step up to and with `until` (all of them without it), nothing asserted on the way."""
        for step in self.bench.procedure["steps"]:
            self.does(step)
            if step["id"] == until:
                return

    def build(self) -> Build:
        return Build(self.bench.procedure, json.loads(json.dumps(self.bench.events)))

    def fits(self, name: str) -> list[dict]:
        """A fit at each of its stations, as the kernel judges it."""
        return fit_everywhere(self.build(), name)

    def value(self, name: str, unit: str, station: str = "") -> float:
        """The figure of a fit in a unit."""
        found = figure(self.build(), name, station)
        assert found["state"] == "read", (name, found)
        return float(found["value"] / factor(unit))
