"""Every sentence of the kernel can be said in every language it speaks."""

from __future__ import annotations

import re
from pathlib import Path
from string import Formatter

import pytest

from kernel.words import EVERYDAY, LANGUAGES

from .bench import Bench

KERNEL = Path(__file__).parents[2] / "backend" / "kernel"
OTHERS = [language for language in LANGUAGES if language != EVERYDAY]
# keys that are put together: say("word_" + state)
FAMILIES = re.compile(r'"([a-z_]+_)" \+|[a-z]+ \+ "(_[a-z]+)"')


def places(sentence: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(sentence) if name is not None}


@pytest.mark.parametrize("language", OTHERS)
def test_the_same_sentences_with_the_same_places_to_fill(language):
    theirs, ours = LANGUAGES[language], LANGUAGES[EVERYDAY]
    assert set(theirs) == set(ours)
    assert {key: places(theirs[key]) for key in ours} == {key: places(ours[key]) for key in ours}


def test_nothing_is_translated_that_nobody_says():
    code = "\n".join(path.read_text(encoding="utf-8") for path in KERNEL.rglob("*.py") if path.parent.name != "words")
    families = [first or last for first, last in FAMILIES.findall(code)]
    unused = [
        key
        for key in LANGUAGES[EVERYDAY]
        if f'"{key}"' not in code and not any(key.startswith(f) if f[-1] == "_" else key.endswith(f) for f in families)
    ]
    assert unused == []


def test_a_german_builder_reads_german():
    bench = Bench()
    bench.marek.does("journals", main_journal=["2.4480"] * 5)
    bench.marek.reads("main_bore@1", "2.4502")
    german = {"length": "mm", "torque": "N.m", "language": "de"}
    seen = next(f for f in bench.view("main_bores", units=german)["fits"] if f["station"] == "1")
    assert (seen["word"], seen["says"]) == ("Passt", "0.005 Luft nach unten")
    assert seen["limit"]["says"].startswith("Grenzmaß 0.051–0.076, Tabelle (")
