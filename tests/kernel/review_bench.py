"""A small engine with everything that a check of the whole build looks at. Figures and limits are invented."""

from __future__ import annotations

from functools import lru_cache

from catalogue.compile import compile_text

from .bench import Bench

NO_SOURCE = 'source: "common practice, no published source", dated: 2026-11-25'


def rows(*limits: str) -> str:
    """Limit rows, each for every duty that the procedure has."""
    return "[" + ", ".join(f"{{duty: {duty}, {limit}, {NO_SOURCE}}}" for limit in limits for duty in ("race", "street")) + "]"


TEXT = f"""\
procedure: small
revision: 1
dated: 2026-11-25
title: Small
phases: [{{id: one, title: One}}]
groups:
  cylinders: {{title: cylinder, stations: [{{id: "1", x: 10, y: 50}}, {{id: "2", x: 90, y: 50}}]}}
  mains: {{title: main, stations: [{{id: "1", x: 10, y: 50}}, {{id: "2", x: 90, y: 50}}]}}
choices:
  rod_material: {{title: Rod material, options: [{{id: steel, title: steel}}, {{id: aluminium, title: aluminium}}]}}
  oil: {{title: Oil grade, table: oils}}
  colour: {{title: Colour, options: [{{id: red, title: red}}, {{id: blue, title: blue}}]}}
points:
  deck: {{title: Piston below deck, group: cylinders, band: [0 in, 0.1 in]}}
  bore: {{title: Bore, group: cylinders, band: [3 in, 5 in]}}
  gap: {{title: Gap, group: cylinders, band: [0 in, 0.1 in], scale: fit}}
  fore: {{title: Fore, group: cylinders, band: [3 in, 5 in]}}
  main_journal: {{title: Main journal, group: mains, band: [2 in, 3 in]}}
  main_bore: {{title: Bearing bore, group: mains, band: [2 in, 3 in]}}
  main_length: {{title: Bearing length, band: [0.4 in, 2 in]}}
  load: {{title: Bearing load, band: [1 lbf, 20000 lbf]}}
  redline: {{title: Highest speed, band: [100 rpm, 12000 rpm]}}
parts:
  gasket: {{title: head gasket, band: [0.01 in, 0.1 in], measures: thickness}}
  lifter: {{title: lifter, band: [0.5 in, 1.5 in], measures: diameter}}
slots:
  head_gasket: {{title: head gasket, part: gasket, holds: one, must: true, disturbs: [heads_on]}}
  lifters: {{title: lifter, group: cylinders, part: lifter, holds: one, own: true}}
  plate: {{title: build plate, part: gasket, holds: many, must: true}}
  plugs: {{title: gallery plugs, part: gasket, holds: many, must: true, disturbs: [heads_on]}}
fits:
  squish: {{title: Squish, group: cylinders, formula: "deck + '0.040 in'", limit: squish, why: Too little and the piston meets the head., cure: a thicker gasket}}
  ring_gap: {{title: Ring gap, group: cylinders, formula: gap, limit: ring_gap}}
  out_of_round: {{title: Out of round, group: cylinders, formula: "spread(bore, fore)", limit: out_of_round}}
  squish_spread: {{title: Spread of squish, formula: spread(squish), limit: spread}}
  main_clearance: {{title: Main clearance, group: mains, formula: main_bore - main_journal, limit: main_clearance}}
  main_spread: {{title: Spread of mains, formula: spread(main_clearance), limit: spread}}
limits:
  squish: {rows("low: 0.055 in, high: 0.065 in, when: {rod_material: aluminium}", "low: 0.035 in, high: 0.045 in, when: {rod_material: steel}")}
  ring_gap: {rows("low: 0.0045 in/in, per: bore")}
  out_of_round: {rows("high: 0.0005 in")}
  spread: {rows("high: 0.0005 in")}
  main_clearance: {rows("low: 0.0020 in, high: 0.0030 in, aim: 0.0025 in")}
shop:
  out_of_round: {rows("high: 0.0004 in, when: {rod_material: steel}")}
film: {{clearance: main_clearance, journal: main_journal, length: main_length, load: load, viscosity: oil.hths, speed: redline}}
steps:
  - {{id: choose, phase: one, title: Choose, do: Choose., why: Why., source: this test, asks: [rod_material, oil, colour]}}
  - id: mains
    phase: one
    title: Read the mains
    do: Read.
    why: Why.
    source: this test
    reads: [main_journal, main_bore]
    may_read: [main_length, load, redline]
    works_out: [main_clearance, main_spread]
  - {{id: crank, phase: one, title: Crank in, do: Lay., why: Why., source: this test, after: [mains], gates: [main_clearance, main_spread], confirms: [{{id: in, text: In}}]}}
  - {{id: crank_again, phase: one, title: Crank turned, do: Turn., why: Why., source: this test, after: [crank], gates: [main_clearance], confirms: [{{id: free, text: Free}}]}}
  - id: heights
    phase: one
    title: Read the heights
    do: Read.
    why: Why.
    source: this test
    reads: [deck, bore, fore, gap]
    works_out: [squish, squish_spread, ring_gap, out_of_round]
  - {{id: heads_on, phase: one, title: Heads on, do: Put., why: Why., source: this test, after: [heights], confirms: [{{id: put, text: Put}}]}}
"""


@lru_cache
def procedure(text: str = TEXT) -> dict:
    return compile_text(text, "small.yaml")


def small(text: str = TEXT, **chosen: str) -> Bench:
    """A bench at the small engine, with some choices made."""
    bench = Bench(procedure(text))
    for choice, option in chosen.items():
        bench.marek.write("choice.made", choice=choice, option=option)
    return bench


def reads(bench: Bench, unit: str = "in", **readings: str | tuple) -> None:
    """`deck=("0.010", "0.012")` by station; a single text for a single spot."""
    for point, texts in readings.items():
        texts = (texts,) if isinstance(texts, str) else texts
        for station, text in zip(bench.stations(point), texts, strict=True):
            bench.marek.reads(f"{point}@{station}" if station else point, text, unit)


def found(bench: Bench, check: str, **more) -> list[dict]:
    return [f for f in bench.ask("review", **more)["findings"] if f["check"] == check]
