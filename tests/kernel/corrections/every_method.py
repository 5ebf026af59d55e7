"""A bench whose procedure uses every method of correction (every-method.yaml)."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from catalogue.compile import compile_text

from tests.kernel.bench import Bench

FILE = Path(__file__).parent / "every-method.yaml"


@cache
def procedure() -> dict:
    return compile_text(FILE.read_text(encoding="utf-8"), FILE.name)


class MethodBench(Bench):
    def __init__(self) -> None:
        super().__init__(procedure())

    def reads(self, point: str, *texts: str, unit: str = "in") -> None:
        """One reading a station, in the order of the plan; an empty text reads nothing there."""
        for station, text in zip(self.stations(point), texts, strict=True):
            if text:
                self.marek.reads(f"{point}@{station}" if station else point, text, unit)

    def measures(self, unit: str = "in", **sizes: str) -> None:
        """Sizes of the parts that came with the slots: `piston_1="4.0262"`."""
        for name, text in sizes.items():
            slot, _, station = name.rpartition("_")
            self.marek.write("part.measured", part=f"{slot}@{station}" if slot else name, text=text, unit=unit)

    def shelves(self, kind: str, unit: str = "in", **sizes: str) -> None:
        for name, text in sizes.items():
            self.marek.write("part.added", part=name, kind=kind, title=f"{kind} {text}", size={"text": text, "unit": unit})

    def offers(self, step: str, **more) -> list[dict]:
        return self.view(step, **more)["offers"]

    def does_it(self, offer: dict) -> None:
        self.marek.write(offer["draft"]["type"], **offer["draft"]["body"])


def after(offer: dict) -> dict:
    return {row["station"]: row["after"] for row in offer["rows"]}
