"""A procedure just large enough for the rules of choices, sizes and limits. Names and figures are invented."""

from __future__ import annotations

from catalogue.compile import compile_text

TEXT = """
procedure: small-engine
revision: 1
dated: 2026-11-25
title: Two holes
phases: [{id: all, title: All of it}]
groups:
  cylinders:
    title: cylinder
    stations: [{id: "1", x: 30, y: 50}, {id: "2", x: 70, y: 50}]
choices:
  rod_material: {title: Rod material, options: [{id: steel, title: steel}, {id: aluminium, title: aluminium}]}
points:
  bore: {title: Bore, group: cylinders, scale: size, band: [2 in, 6 in], tool: bore gauge}
  gap: {title: Top ring gap, group: cylinders, scale: fit, band: [0 in, 0.1 in], tool: feeler}
  deck: {title: Piston below deck, group: cylinders, scale: fit, band: [-0.05 in, 0.1 in], tool: depth gauge}
fits:
  ring_gap: {title: Top ring gap, group: cylinders, formula: gap, limit: ring_gap}
  wall: {title: Piston to wall, group: cylinders, formula: bore - size(piston), limit: wall}
  squish: {title: Squish, group: cylinders, formula: deck + size(gasket), limit: squish}
  deepest: {title: Deepest piston, formula: max(deck)}
limits:
  ring_gap:
    - {duty: race, per: bore, low: 0.0045 in/in, high: 0.0055 in/in, source: "common practice, no published source", dated: 2026-11-25}
    - {duty: boosted, per: bore, low: 0.0060 in/in, plus: 0.001 in, source: "common practice, no published source", dated: 2026-11-25}
  wall:
    - {duty: race, low: 0.002 in, high: 0.004 in, source: "common practice, no published source", dated: 2026-11-25}
    - {duty: boosted, low: 0.003 in, high: 0.005 in, source: "common practice, no published source", dated: 2026-11-25}
  squish:
    - {duty: race, when: {rod_material: steel}, low: 0.035 in, high: 0.045 in, source: "common practice, no published source", dated: 2026-11-25}
    - {duty: race, when: {rod_material: aluminium}, low: 0.055 in, high: 0.065 in, source: "common practice, no published source", dated: 2026-11-25}
    - {duty: boosted, low: 0.040 in, source: "common practice, no published source", dated: 2026-11-25}
parts:
  piston: {title: piston, band: [2 in, 6 in], tool: outside micrometer, measures: skirt}
  gasket: {title: head gasket, band: [0.01 in, 0.2 in], tool: outside micrometer, measures: compressed thickness}
slots:
  piston: {title: piston, group: cylinders, part: piston, holds: one, disturbs: [deck], must: true, own: true}
  gasket: {title: head gasket, part: gasket, holds: one, disturbs: []}
steps:
  - {id: facts, phase: all, title: Facts, do: Say what it is., why: Limits depend on it., source: invented, asks: [rod_material]}
  - {id: bores, phase: all, title: Bores, do: Read., why: To know., source: invented, after: [facts], reads: [bore, gap], may_measure: [piston],
     works_out: [ring_gap, wall], disturbs: [bore]}
  - {id: decks, phase: all, title: Decks, do: Read., why: To know., source: invented, after: [bores], reads: [deck], may_measure: [gasket],
     works_out: [squish, deepest]}
  - {id: head, phase: all, title: Head on, do: Pull., why: To close., source: invented, after: [decks], gates: [squish],
     torque: {lubricant: oil, passes: [20 N.m, 40 N.m, 90 deg], fasteners: [{id: "1", x: 1, y: 1}, {id: "2", x: 9, y: 9}]},
     confirms: [{id: front, text: Front is front, why: It has one.}, {id: lock, text: Lock is on, why: It is forgotten., last: true}]}
"""

PROCEDURE = compile_text(TEXT, "small-engine.yaml")
