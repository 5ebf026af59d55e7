"""A shop that writes its own formulas: a few lines of procedure, compiled as any procedure is, read at a bench and worked out."""

from __future__ import annotations

from fractions import Fraction

import yaml
from catalogue.compile import compile_text
from catalogue.units import factor
from kernel.fits import figure, figure_if
from kernel.fold import Build

HEAD = """\
procedure: bench
revision: 1
dated: 2026-11-25
title: Bench
phases: [{id: one, title: One}]
"""
STEP = "steps: [{id: read, phase: one, title: Read, do: Read., why: Why., source: this test, asks: %s, reads: %s, works_out: %s}]\n"


class Shop:
    """`text`: the YAML tables groups, choices, points and fits; one step reads and works out everything."""

    def __init__(self, text: str):
        tables = yaml.safe_load(text)
        named = [f"[{', '.join(tables.get(table) or [])}]" for table in ("choices", "points", "fits")]
        self.procedure = compile_text(HEAD + text + STEP % tuple(named), "bench.yaml")

    def build(self, choices: dict[str, str] | None = None, **readings: str | list[str]) -> Build:
        """A build with these choices made and these points read: `bore="4.030 in"`, or a list with one text a station."""
        events = [("build.opened", {"name": "Bench", "procedure": "bench", "revision": 1, "duty": "race"})]
        events += [("choice.made", {"choice": choice, "option": option}) for choice, option in (choices or {}).items()]
        for point, texts in readings.items():
            for station, text in zip(self.stations(point), [texts] if isinstance(texts, str) else texts, strict=True):
                number, unit = text.split(" ")
                events.append(("reading", {"point": point, "station": station, "text": number, "unit": unit}))
        out = Build(self.procedure, [_event(n + 1, *event) for n, event in enumerate(events)])
        assert not out.flags, out.flags
        return out

    def stations(self, point: str) -> list[str]:
        group = self.procedure["points"][point]["group"]
        return [s["id"] for s in self.procedure["groups"][group]["stations"]] if group else [""]

    def gives(self, fit: str, unit: str, *, at: str = "", choices: dict[str, str] | None = None, **readings: str | list[str]) -> float:
        """The figure of a fit, in a unit."""
        found = figure(self.build(choices, **readings), fit, at)
        assert found["state"] == "read", found
        return float(Fraction(found["value"]) / factor(unit))

    def sensitivities(self, fit: str, points: dict[str, int], reach: dict[str, int]) -> dict[str, tuple[float, float]]:
        """For each reading, its sensitivity as the kernel says it and as the figure really moves when the reading moves by
        `reach` either way; both in base units of the fit for a base unit of the reading."""
        build = Build(self.procedure, [])
        said = figure_if(build, fit, "", points)["sens"]
        out = {}
        for name in points:
            up, down = (figure_if(build, fit, "", points | {name: points[name] + sign * reach[name]})["value"] for sign in (1, -1))
            out[name] = (said.get(name, 0) / 1e9, (up - down) / (2 * reach[name]))
        return out


def _event(n: int, kind: str, body: dict) -> dict:
    return {"dev": "a" * 32, "n": n, "build": "b-bench", "type": kind, "v": 1, "at": 0, "seen": 0, "who": "marek", "role": "builder", "body": body}
