"""Choices, the tables they come from, and limits that go by size or by choice."""

from __future__ import annotations

import pytest
from catalogue.compile import compile_text
from catalogue.errors import ProcedureError

from .wide import TABLES, WIDE


def test_a_choice_brings_its_rows_with_figures_and_sources(wide_with):
    choices = wide_with()["choices"]
    assert choices["block"] == {
        "title": "Block",
        "columns": {"expansion": "expansion", "modulus": "pressure"},
        "options": [
            {"id": "grey_iron", "title": "grey iron", "source": "a book", "values": {"expansion": 11_400}},
            {"id": "aluminium_356", "title": "aluminium 356", "source": "a book", "values": {"expansion": 21_500, "modulus": 72 * 10**12}},
        ],
    }
    assert choices["oil"]["options"][0]["values"] == {"hths": 2900}
    assert choices["piston"] == {
        "title": "Piston",
        "columns": {},
        "options": [{"id": "cast", "title": "cast", "source": "", "values": {}}, {"id": "forged", "title": "forged", "source": "", "values": {}}],
    }
    assert wide_with()["steps"][0]["asks"] == ["block", "oil", "piston"]


def test_a_column_that_every_option_fills_may_be_used(wide_with, wide_refused):
    assert wide_with("only: [grey_iron, aluminium_356]", "only: [aluminium_356]")
    _, problems = wide_refused("rise * block.expansion", "rise * block.modulus")
    assert any("'block.modulus' cannot be used in a formula" in p.says for p in problems)


def test_a_limit_from_a_table_keeps_its_source_and_goes_by_the_size_it_is_given(wide_with):
    row = {"authority": "table", "duty": "race", "source": "practice", "dated": "2026-11-25", "per": {"kind": "point", "name": "bore"}}
    assert wide_with()["limits"]["wall"] == [
        {**row, "low": 400, "high": 600, "aim": None, "plus": 0, "when": {"piston": "cast"}},
        {**row, "low": 600, "high": 800, "aim": 700, "plus": 25_400, "when": {"piston": "forged"}},
    ], "the row for a choice that this procedure does not ask is left out"
    assert wide_with()["limits"]["speed"][0]["high"] == 25_400_000 and wide_with()["limits"]["speed"][0]["per"] is None


def test_a_shop_row_may_go_by_size_too(wide_with):
    row = "{duty: race, high: 0.001 in/in, per: wall, source: the shop, dated: 2026-11-25}"
    made = wide_with("  speed: {table: speed}", f"  speed: {{table: speed}}\nshop:\n  wall: [{row}]")
    assert made["limits"]["wall"][0]["per"] == {"kind": "fit", "name": "wall"}
    assert [r["authority"] for r in made["limits"]["wall"]] == ["shop", "table", "table"]


ROW = 'ratio: [{duty: race, low: "9 :1", high: "12.5 :1", source: practice, dated: 2026-11-25}]'
REST = "source: practice, dated: 2026-11-25}"
CASES = [
    ("no such table", "table: oils}", "table: oil}", "takes the table 'oil', which is not there. Tables: materials, oils."),
    ("no such row", "only: [grey_iron, aluminium_356]", "only: [iron]", "The table 'materials' has no row 'iron'. It has: grey_iron,"),
    ("options and table", "table: oils}", "table: oils, options: [{id: x, title: x}]}", "needs either 'options' or a 'table'"),
    ("neither", "{title: Oil, table: oils}", "{title: Oil}", "needs either 'options' or a 'table'"),
    ("only without table", "{title: Piston, options", "{title: Piston, only: [cast], options", "'only' goes with a 'table'"),
    ("option twice", "{id: cast, title: cast}", "{id: forged, title: cast}", "has two options 'forged'"),
    (
        "figure without source",
        "{id: cast, title: cast}",
        "{id: cast, title: cast, values: {growth: 20 um/m/K}}",
        "'cast' has figures: say their 'source'",
    ),
    (
        "figures of two kinds",
        "[{id: cast, title: cast}, {id: forged, title: forged}]",
        "[{id: cast, title: c, source: s, values: {x: 1 K}}, {id: forged, title: f, source: s, values: {x: 1 in}}]",
        "'x' of 'forged' is a length, but a temperature before",
    ),
    ("asked nowhere", "asks: [block, oil, piston]", "asks: [block, oil]", "The choice 'piston' is asked for at no step"),
    ("no such choice", "asks: [block, oil, piston]", "asks: [block, oil, piston, pistons]", "Did you mean 'piston'?"),
    ("asked twice", "    gates: [wall]", "    gates: [wall]\n    asks: [oil]", "'oil' is asked for at 'ask' already"),
    ("chosen too late", "after: [ask]", "after: []", "'read' needs the choice 'block' for 'growth' before that; it is asked for at 'ask'."),
    ("no such limit in the tables", "{table: speed}", "{table: sped}", "There is no limit 'sped' in the tables. There are: wall, speed."),
    ("size forgotten", "{table: wall, per: bore}", "{table: wall}", "The limit 'wall' is a ratio, but the fit 'wall' is a length. Say 'per'"),
    ("no such size", "{table: wall, per: bore}", "{table: wall, per: bores}", "'per' names the point or fit 'bores', which is not there. Did"),
    ("size of another kind", "{table: wall, per: bore}", "{table: wall, per: rise}", "goes by 'rise', a temperature, but the fit 'wall' is a length"),
    ("size elsewhere", "{table: wall, per: bore}", "{table: wall, per: throw}", "which is read at the stations of throws, but the fit 'wall' is not"),
    ("by size, but no ratio", ROW, "ratio: [{duty: race, low: 9 in, per: bore, " + REST + "]", "so its figures are ratios such as '0.001 in/in', not a length"),
    ("plus of another kind", ROW, 'ratio: [{duty: race, low: "9 :1", plus: 1 in, ' + REST + "]", "'plus' of the limit 'ratio' is a length, but the fit"),
    ("no such option", ROW, 'ratio: [{duty: race, low: "9 :1", when: {oil: sae_99}, ' + REST + "]", "counts when 'oil' is 'sae_99', which cannot be chosen"),
    (
        "behind a wider one",
        ROW,
        'ratio: [{duty: race, low: "9 :1", ' + REST + ', {duty: race, low: "8 :1", when: {piston: cast}, ' + REST + "]",
        "has a row that never counts, behind a wider one, for the duty 'race'",
    ),
    (
        "the same twice",
        ROW,
        "ratio: [" + ", ".join(['{duty: race, low: "9 :1", when: {piston: cast}, ' + REST] * 2) + "]",
        "has two rows for the duty 'race'",
    ),
]


@pytest.mark.parametrize(("old", "new", "says"), [c[1:] for c in CASES], ids=[c[0] for c in CASES])
def test_refused(wide_refused, old, new, says):
    _, problems = wide_refused(old, new)
    assert any(says in p.says for p in problems), [str(p) for p in problems]
    assert all(p.file == "wide.yaml" and p.line >= 1 and p.says.endswith((".", "?")) for p in problems)


@pytest.mark.parametrize("name", ["no such table", "no such row", "no such size", "size elsewhere", "plus of another kind"])
def test_the_line_is_the_line_of_the_mistake(wide_refused, name):
    old, new, says = next(c[1:] for c in CASES if c[0] == name)
    line, problems = wide_refused(old, new)
    at = [p.line for p in problems if says in p.says]
    assert line in at, [str(p) for p in problems]


def test_a_gate_whose_limit_goes_by_a_size_read_later_is_refused():
    late = "  - {id: late, phase: one, title: Late, do: Do., why: Why., source: practice, after: [pull], reads: [rim]}\n"
    point = "  rim: {title: Rim, group: cylinders, band: [3 in, 4 in]}\n"
    text = WIDE.replace("per: bore", "per: rim").replace("points:\n", "points:\n" + point) + late
    with pytest.raises(ProcedureError, match="'pull' is held by 'wall', whose limit goes by 'rim', which needs 'rim' before that"):
        compile_text(text, "wide.yaml", TABLES)
