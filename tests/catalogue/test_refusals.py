"""Every way a file can be bad is answered with file, line and a sentence."""

from __future__ import annotations

import pytest
from catalogue.compile import compile_text
from catalogue.errors import ProcedureError

CASES = [
    (
        "unknown unit",
        "float: {title: Float, scale: fit, band: [0 in, 0.06 in]}",
        "float: {title: Float, band: [0 in, 0.06 inches]}",
        "The unit 'inches' is not known.",
    ),
    ("no unit", "level: [{duty: race, high: 0.0005 in", "level: [{duty: race, high: 0.0005", "has no unit"),
    ("not a number", "level: [{duty: race, high: 0.0005 in", "level: [{duty: race, high: half in", "is not a quantity"),
    (
        "band upside down",
        "float: {title: Float, scale: fit, band: [0 in, 0.06 in]}",
        "float: {title: Float, band: [1 in, 0 in]}",
        "The band of 'float' is upside down: 1 in is not less than 0 in.",
    ),
    ("band of one", "float: {title: Float, scale: fit, band: [0 in, 0.06 in]}", "float: {title: Float, band: [1 in]}", "must be two quantities"),
    (
        "band of two kinds",
        "float: {title: Float, scale: fit, band: [0 in, 0.06 in]}",
        "float: {title: Float, band: [0 in, 2 cm3]}",
        "mixes length and volume",
    ),
    ("mixed dimensions", "formula: bore - journal", "formula: bore - chamber", "'chamber' (volume) cannot be taken from 'bore' (length)."),
    ("unknown name", "formula: bore - journal", "formula: bore - jornal", "'jornal' is neither a point nor a fit"),
    ("two groups", "formula: bore - journal", "formula: bore - rod_bore", "at those of rods: they cannot meet"),
    ("an area in a length", "formula: bore - journal", "formula: bore * journal - bore", "'bore' (length) cannot be taken from 'bore * journal' (area)."),
    ("code in a formula", "formula: bore - journal", "formula: __import__('os').system('true')", "is not known"),
    ("an attribute", "formula: bore - journal", "formula: bore.real", "cannot be used in a formula"),
    ("a bare number", "formula: bore - journal", "formula: bore - 2", "The number 2 has no unit"),
    ("not a formula", "formula: bore - journal", "formula: bore - ", "is not a formula"),
    ("spread of one", "formula: spread(clearance)", "formula: spread(float)", "'float' is a single figure"),
    ("sum of two", "formula: spread(clearance)", "formula: 'sum(bore, journal)'", "takes one thing"),
    ("spread of a sum", "formula: spread(clearance)", "formula: spread(bore - journal)", "make 'bore - journal' a fit of its own first"),
    ("nothing to do", "disturbs: [float], confirms: [{id: free, text: Free}]}", "disturbs: [float]}", "'turn' has nothing to do"),
    ("group forgotten", "formula: spread(clearance)", "formula: clearance", "add 'group: mains'"),
    (
        "circle of fits",
        "formula: bore - journal",
        "formula: bore - level",
        "These fits go in a circle: clearance is worked out from level, level is worked out from clearance.",
    ),
    ("fit of nothing", "formula: spread(clearance)", "formula: \"'1 in'\"", "rests on nothing that is read"),
    ("missing field", "title: Small", "", "'procedure' has no 'title'."),
    ("unknown field", "title: Small", "title: Small\nrevison: 2", "Did you mean 'revision'?"),
    ("duplicate key", "title: Small", "title: Small\ntitle: Again", "'title' is given twice; it was already given in line 4."),
    ("alias", "title: Small", "title: &a Small\nphase: *a", "write the values out"),
    ("not YAML", "title: Small", "title: [Small", "not readable YAML"),
    ("bad date", "dated: 2026-11-25\ntitle", "dated: 2026-11-31\ntitle", "must be a date such as 2026-11-25"),
    ("bad revision", "revision: 1", "revision: first", "must be a whole number from 1 to 9999"),
    ("bad id", "procedure: small", "procedure: Small One", "small letters, digits and hyphens"),
    ("limit without ends", "level: [{duty: race, high: 0.0005 in, ", "level: [{duty: race, ", "neither 'low' nor 'high'"),
    ("limit out of order", "aim: 0.0025 in", "aim: 0.0035 in", "is out of order: 0.0020 in, 0.0035 in, 0.0030 in"),
    (
        "limit of another kind",
        "level: [{duty: race, high: 0.0005 in",
        "level: [{duty: race, high: 5 N.m",
        "The limit 'level' is a torque, but the fit 'level' is a length.",
    ),
    ("a duty left out", "level: [{duty: race,", "level: [{duty: street,", "has no row for the duty 'race'"),
    ("limit not there", "limit: level}", "limit: levels}", "names the limit 'levels', which is not there. Did you mean 'level'?"),
    ("group not there", "group: rods,", "group: roads,", "names the group 'roads'"),
    ("part not there", "part: shell,", "part: shall,", "names the part 'shall'"),
    ("step not there", "after: [read]", "after: [reed]", "names the step 'reed', which is not there. Did you mean 'read'?"),
    ("gate not there", "gates: [clearance]", "gates: [clearence]", "names the fit 'clearence'"),
    ("nothing to disturb", "disturbs: [bore, caps]", "disturbs: [bore, hats]", "names the point or step 'hats'"),
    ("step twice", "id: turn,", "id: read,", "There are two of the step 'read'"),
    ("step called as a point", "id: turn,", "id: float,", "both a step and a point"),
    ("torque that is not one", "passes: [40 lbf.ft,", "passes: [40 psi,", "which is a pressure, not a torque"),
    ("passes that fall", "passes: [40 lbf.ft,", "passes: [60 lbf.ft,", "The passes of 'caps' must rise."),
    ("fastener nowhere", 'y: 20, station: "1"', 'y: 20, station: "9"', "at station '9'"),
    ("off the plan", '{id: "1", x: 10, y: 20,', '{id: "1", x: 110, y: 20,', "'x' must be a whole number from 0 to 100"),
    ("read nowhere", "reads: [journal, bore, float, chamber]", "reads: [journal]", "which needs 'bore' before that; it is read nowhere"),
    ("list that is none", "gates: [clearance]", "gates: clearance", "'gates' must be a list."),
    ("word that is none", "holds: one", "holds: two", "'holds' must be one or many, not 'two'."),
]


@pytest.mark.parametrize(("old", "new", "says"), [c[1:] for c in CASES], ids=[c[0] for c in CASES])
def test_a_bad_file_is_refused_with_its_sentence(refused, old, new, says):
    _, problems = refused(old, new)
    assert any(says in p.says for p in problems), [str(p) for p in problems]
    assert all(p.file == "small.yaml" and p.line >= 1 and p.says.endswith((".", "?")) for p in problems)


ON_THE_LINE = [
    "unknown unit",
    "no unit",
    "band upside down",
    "mixed dimensions",
    "unknown name",
    "two groups",
    "a bare number",
    "bad date",
    "bad revision",
    "limit out of order",
    "group not there",
    "step not there",
    "gate not there",
    "passes that fall",
    "fastener nowhere",
    "limit of another kind",
    "circle of fits",
    "read nowhere",
]


@pytest.mark.parametrize("name", ON_THE_LINE)
def test_the_line_is_the_line_of_the_mistake(refused, name):
    case = next(c for c in CASES if c[0] == name)
    line, problems = refused(case[1], case[2])
    assert line in [p.line for p in problems if case[3] in p.says], [str(p) for p in problems]


def test_a_duplicate_key_is_reported_where_it_is_repeated(refused):
    line, problems = refused("title: Small", "title: Small\ntitle: Again")
    assert [p.line for p in problems] == [line + 1]


def test_steps_in_a_circle_are_named_in_words(refused):
    _, problems = refused("works_out: [clearance, level]}", "works_out: [clearance, level], after: [turn]}")
    assert [p.says for p in problems] == ["These steps go in a circle: read waits for turn, turn waits for caps, caps waits for read."]


def test_a_gate_read_only_later_is_refused(refused):
    _, problems = refused("    after: [read]\n", "")
    assert any("'caps' is held by 'clearance', which needs 'bore' before that; it is read at 'read'." == p.says for p in problems)


def test_all_mistakes_are_told_at_once_in_order_of_line(good):
    spoiled = good.replace("title: Small", "").replace("revision: 1", "revision: x").replace("holds: one", "holds: two")
    with pytest.raises(ProcedureError) as caught:
        compile_text(spoiled, "small.yaml")
    lines = [p.line for p in caught.value.problems]
    assert len(lines) == 3 and lines == sorted(lines)
    assert str(caught.value).startswith("small.yaml, line ")


@pytest.mark.parametrize("text", ["", "just words", "- a\n- b", "procedure:", "\tx: 1", "a: !!python/object:os.system x", "\x00"])
def test_text_that_is_no_procedure_at_all(text):
    with pytest.raises(ProcedureError) as caught:
        compile_text(text, "odd.yaml")
    assert caught.value.problems
