"""A procedure that uses what the short block does not: compound formulas, choices, limits by size, corrections, a film."""

from __future__ import annotations

from catalogue.tables import Tables, read_limits, read_values

MATERIALS = """\
table: materials
dated: 2026-11-25
columns: {expansion: um/m/K, modulus: GPa}
rows:
  - {id: grey_iron, title: grey iron, expansion: "11.4 um/m/K", source: a book}
  - {id: aluminium_356, title: aluminium 356, expansion: "21.5 um/m/K", modulus: "72 GPa", source: a book, dated: 2026-11-24}
  - {id: 4340_steel, title: steel 4340, expansion: "12.3 um/m/K", source: a book}
"""
OILS = """\
table: oils
dated: 2026-11-25
columns: {hths: mPa.s}
rows:
  - {id: sae_30, title: SAE 30, hths: "2.9 mPa.s", source: a standard}
"""
LIMITS = """\
limits:
  wall:
    - {duty: race, low: 0.0004 in/in, high: 0.0006 in/in, when: {piston: cast}, source: practice, dated: 2026-11-25}
    - {duty: race, low: 0.0006 in/in, high: 0.0008 in/in, aim: 0.0007 in/in, plus: 0.001 in, when: {piston: forged}, source: practice, dated: 2026-11-25}
    - {duty: race, low: 0.0009 in/in, high: 0.0012 in/in, when: {fuel: sand}, source: practice, dated: 2026-11-25}
  speed: [{duty: race, high: 5000 ft/min, source: practice, dated: 2026-11-25}]
"""
TABLES = Tables(
    {"materials": read_values(MATERIALS, "materials.yaml"), "oils": read_values(OILS, "oils.yaml")},
    dict(read_limits(LIMITS, "limits.yaml")),
)

WIDE = """\
procedure: wide
revision: 1
dated: 2026-11-25
title: Wide
phases: [{id: one, title: One}]
groups:
  cylinders: {title: cylinder, stations: [{id: "1", x: 10, y: 50}, {id: "2", x: 90, y: 50}]}
  throws: {title: throw, stations: [{id: "1", x: 10, y: 50}]}
points:
  bore: {title: Bore, group: cylinders, band: [3.9 in, 4.2 in]}
  skirt: {title: Skirt, group: cylinders, band: [3.9 in, 4.2 in]}
  throw: {title: Throw, group: throws, band: [1 in, 2 in]}
  stroke: {title: Stroke, band: [3 in, 4 in]}
  chamber: {title: Chamber, group: cylinders, band: [30 cm3, 90 cm3]}
  deck: {title: Deck, group: cylinders, band: [-0.02 in, 0.05 in]}
  gap: {title: Gap, group: cylinders, band: [0 in, 0.2 in]}
  lash: {title: Lash, group: cylinders, band: [0 in, 0.1 in]}
  redline: {title: Redline, band: [1000 rpm, 12000 rpm]}
  rise: {title: Rise, band: [0 K, 200 K]}
  tilt: {title: Tilt, band: [0 deg, 40 deg]}
  push: {title: Push, band: [10 lbf, 4000 lbf]}
  width: {title: Width, band: [0.5 in, 2 in]}
fits:
  swept: {title: Swept, group: cylinders, formula: pi / 4 * bore ** 2 * stroke, unit: in3}
  left: {title: Left, group: cylinders, formula: chamber + pi / 4 * bore ** 2 * (deck + size(gasket))}
  ratio: {title: Ratio, group: cylinders, formula: (swept + left) / left, limit: ratio, why: It knocks., cure: Another gasket.}
  wall: {title: Wall, group: cylinders, formula: bore - skirt, limit: wall}
  speed: {title: Speed, formula: 2 * stroke * redline, limit: speed}
  growth: {title: Growth, group: cylinders, formula: bore * rise * block.expansion}
  load: {title: Load, formula: push / (width * stroke)}
  lashes: {title: Lashes, group: cylinders, formula: lash}
  tried: {title: Tried, group: cylinders, formula: gap}
limits:
  ratio: [{duty: race, low: "9 :1", high: "12.5 :1", source: practice, dated: 2026-11-25}]
  wall: {table: wall, per: bore}
  speed: {table: speed}
parts:
  gasket: {title: gasket, band: [0.02 in, 0.08 in]}
  bucket: {title: bucket, band: [1 mm, 4 mm]}
slots:
  gasket: {title: gasket, group: cylinders, part: gasket, holds: one, must: true, disturbs: [deck]}
  bucket: {title: bucket, group: cylinders, part: bucket, holds: one, own: true, disturbs: [lash]}
choices:
  block: {title: Block, table: materials, only: [grey_iron, aluminium_356]}
  oil: {title: Oil, table: oils}
  piston: {title: Piston, options: [{id: cast, title: cast}, {id: forged, title: forged}]}
film: {clearance: wall, journal: bore, length: width, load: load, viscosity: oil.hths, speed: redline}
steps:
  - {id: ask, phase: one, title: Ask, do: Ask., why: Why., source: practice, asks: [block, oil, piston]}
  - id: read
    phase: one
    title: Read
    do: Read.
    why: Why.
    source: practice
    after: [ask]
    reads: [bore, skirt, throw, stroke, chamber, deck, gap, lash, redline, rise, tilt, push, width]
    may_measure: [gasket, bucket]
    works_out: [ratio, wall, speed, growth]
    confirms: [{id: dry, text: Dry}, {id: plug, text: Plug in, last: true}]
    corrects:
      - {method: swap, fit: ratio, slot: gasket, also: [wall]}
      - {method: cut, fit: wall, point: bore, moves: up, by: hone the cylinder}
      - {method: buckets, fits: [lashes], slots: [bucket], step: 0.05 mm}
  - id: pull
    phase: one
    title: Pull
    do: Pull.
    why: Why.
    source: practice
    after: [read]
    gates: [wall]
    torque: {lubricant: oil, passes: [20 N.m, 40 N.m, 90 deg, 45 deg], fasteners: [{id: "1", x: 1, y: 1}]}
"""
