"""Whatever is in the file: it compiles, or it is refused with lines and sentences; nothing else happens."""

from __future__ import annotations

from catalogue.compile import compile_text, digest
from catalogue.errors import ProcedureError
from hypothesis import given, settings
from hypothesis import strategies as st

from .conftest import GOOD

LINES = GOOD.splitlines()
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


def outcome(text: str) -> str:
    try:
        made = compile_text(text, "any.yaml")
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
