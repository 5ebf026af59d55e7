"""A bench for kernel tests: people write events, the build answers. Names and figures are invented."""

from __future__ import annotations

import json
from pathlib import Path

from kernel.door import answer

PROCEDURE = json.loads((Path(__file__).parent.parent / "cases" / "procedures" / "pushrod-v8.json").read_text())
THOU = {"length": "thou", "torque": "lbf.ft"}
METRIC = {"length": "mm", "torque": "N.m"}
PEOPLE = {"marek": "Marek", "juno": "Juno", "ines": "Ines", "tomasz": "Tomasz"}
NOW = 1_764_068_400_000


class Phone:
    """One phone: numbers its own events and remembers what it has seen."""

    def __init__(self, bench: Bench, dev: str, who: str, role: str):
        self.bench, self.dev, self.who, self.role = bench, dev * 32, who, role
        self.n = 0
        self.seen = 0

    def write(self, type_: str, **body) -> str:
        self.n += 1
        event = {
            "dev": self.dev,
            "n": self.n,
            "build": "b-boat",
            "type": type_,
            "v": 1,
            "at": NOW + 1000 * len(self.bench.events),
            "seen": self.seen,
            "who": self.who,
            "role": self.role,
            "body": body,
        }
        self.bench.events.append(event)
        return f"{self.dev}:{self.n}"

    def reads(self, spot: str, text: str, unit: str = "in") -> str:
        point, _, station = spot.partition("@")
        return self.write("reading", point=point, station=station, text=text, unit=unit)

    def ticks(self, step: str) -> None:
        for item in self.bench.step(step)["confirms"]:
            self.write("confirm", step=step, item=item["id"])

    def pulls(self, step: str, only: list[str] | None = None) -> None:
        torque = self.bench.step(step)["torque"]
        for i in range(len(torque["passes"])):
            for fastener in torque["fasteners"]:
                if only is None or fastener["id"] in only:
                    self.write("torque.pulled", step=step, **{"pass": i + 1}, fastener=fastener["id"], again=False)

    def does(self, step: str, **readings) -> None:
        """Ticks, reads and pulls everything a step asks for; `readings`: point = list of texts by station."""
        self.ticks(step)
        for point in self.bench.step(step)["reads"]:
            for station, text in zip(self.bench.stations(point), readings[point], strict=True):
                self.write("reading", point=point, station=station, text=text, unit="thou" if point.endswith("float") else "in")
        if self.bench.step(step)["torque"]:
            self.pulls(step)

    def syncs(self) -> None:
        """The server takes in everything so far, in the order of this bench."""
        for event in self.bench.events:
            if event["dev"] == self.dev and "seq" not in event:
                self.bench.head += 1
                event["seq"] = self.bench.head
        self.seen = self.bench.head


class Bench:
    def __init__(self, procedure: dict = PROCEDURE, duty: str = "race"):
        self.procedure, self.events, self.head = procedure, [], 0
        self.marek = Phone(self, "a", "marek", "builder")
        self.juno = Phone(self, "b", "juno", "apprentice")
        self.ines = Phone(self, "c", "ines", "owner")
        self.tomasz = Phone(self, "d", "tomasz", "crew_chief")
        self.marek.write("build.opened", name="Boat", procedure=procedure["procedure"], revision=procedure["revision"], duty=duty)

    def step(self, name: str) -> dict:
        return next(s for s in self.procedure["steps"] if s["id"] == name)

    def stations(self, point: str) -> list[str]:
        group = self.procedure["points"][point]["group"]
        return [s["id"] for s in self.procedure["groups"][group]["stations"]] if group else [""]

    def ask(self, op: str, units: dict = THOU, now: int = NOW, **more) -> dict:
        found = answer(
            {
                "op": op,
                "procedure": self.procedure,
                "events": json.loads(json.dumps(self.events)),
                "people": PEOPLE,
                "units": units,
                "now": now,
                **more,
            }
        )
        assert not found.get("error"), found
        return found

    def overview(self) -> dict:
        return self.ask("overview")

    def status(self, step: str) -> str:
        return next(s["status"] for s in self.overview()["steps"] if s["id"] == step)

    def view(self, step: str, **more) -> dict:
        return self.ask("step", step=step, **more)

    def finds(self, check: str) -> list[str]:
        return [f["says"] for f in self.ask("review")["findings"] if f["check"] == check]
