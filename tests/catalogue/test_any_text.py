"""Whatever is in the file: it compiles, or it is refused with lines and sentences; nothing else happens."""

from __future__ import annotations

from catalogue.compile import compile_text, digest
from catalogue.errors import ProcedureError
from hypothesis import given, settings
from hypothesis import strategies as st

from .conftest import GOOD
from .wide import TABLES, WIDE

LINES = GOOD.splitlines()
WIDE_LINES = WIDE.splitlines()
WORDS = st.sampled_from(
    [
        "",
        "~",
        "x",
        "bore",
        "level",
        "1",
        "-1 in",
        "0.0005 in",
        "5 N.m",
        "[]",
        "{}",
        "[[a]]",
        "{a: {b: c}}",
        "- a",
        "spread(bore)",
        "bore - bore",
        "'",
        ":",
        "race",
        "caps",
        "2026-02-30",
        "bore if bore else bore",
        "é",
        "\t",
    ]
)


PIECES = st.sampled_from(
    [*"+-*/(),. 2", "**", "0", "gap", "bore", "wall", "swept", "tilt", "rise", "throw", "pi", "size(gasket)", "block.expansion", "sqrt(", "cos(",
     "mean(", "spread(", "sum(", "abs(", "'1 mm'", "'1 furlong'", "1e9", "0.5", "9" * 15, "lambda", "x=", "[", "é", "# ", "\t", "\\"]
)  # fmt: skip


def outcome(text: str) -> str:
    try:
        made = compile_text(text, "any.yaml", TABLES)
    except ProcedureError as error:
        assert error.problems and all(p.line >= 1 and p.says for p in error.problems)
        return "refused"
    assert made["digest"] == digest(made)
    return "compiled"


@settings(max_examples=150, deadline=None)
@given(st.integers(0, len(LINES) - 1), st.sampled_from([":", ",", "[", "{", " "]), st.integers(0, 6), WORDS)
def test_a_value_replaced_by_anything(row, mark, place, word):
    pieces = LINES[row].split(mark)
    pieces[place % len(pieces)] = word
    outcome("\n".join([*LINES[:row], mark.join(pieces), *LINES[row + 1 :]]))


@settings(max_examples=150, deadline=None)
@given(st.integers(0, len(WIDE_LINES) - 1), st.sampled_from([":", ",", "[", "{", " "]), st.integers(0, 12), WORDS)
def test_a_value_of_the_wide_file_replaced_by_anything(row, mark, place, word):
    pieces = WIDE_LINES[row].split(mark)
    pieces[place % len(pieces)] = word
    outcome("\n".join([*WIDE_LINES[:row], mark.join(pieces), *WIDE_LINES[row + 1 :]]))


@settings(max_examples=200, deadline=None)
@given(st.lists(PIECES, min_size=1, max_size=9).map("".join))
def test_any_formula_at_all(formula):
    outcome(WIDE.replace("formula: gap}", "formula: '" + formula.replace("'", "''") + "'}"))


@settings(max_examples=60, deadline=None)
@given(st.sets(st.integers(0, len(LINES) - 1), min_size=1, max_size=5))
def test_lines_left_out(gone):
    outcome("\n".join(line for n, line in enumerate(LINES) if n not in gone))


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=60))
def test_any_text_at_all(text):
    assert outcome(text) == "refused"


def test_the_good_file_is_good_and_depth_is_no_way_in():
    assert outcome(GOOD) == "compiled"
    assert outcome("[" * 600 + "]" * 600) == "refused"
    assert outcome(GOOD.replace("formula: bore - journal", "formula: " + "bore - " * 3000 + "journal")) == "refused"
    assert outcome(GOOD.replace("formula: bore - journal", "formula: " + "(" * 90 + "bore" + ")" * 90)) == "compiled"
