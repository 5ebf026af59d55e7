"""Every sentence that the server says to a phone stands in the phone's German table, word for word."""

import ast
import json
import re
from pathlib import Path

import pytest

from record import shape
from sync.files import Taken

ROOT = Path(__file__).resolve().parents[2]
BACKEND = ROOT / "backend"
GERMAN = json.loads((ROOT / "frontend/src/words/heard.de.json").read_text("utf-8"))
# Commands and the admin pages speak to whoever runs the server, the schema to programmers; both in English.
SPEAK = ("sync/request.py", "sync/views.py", "sync/files.py", "record/intake.py", "record/shape.py", "shop/services.py", "shop/tokens.py",
         "shop/views.py", "shop/throttle.py", "config/errors.py", "review/ask.py", "demo/views.py", "demo/reset.py", "board/views.py")  # fmt: skip


def sentences(file: str) -> set[str]:
    tree = ast.parse((BACKEND / file).read_text("utf-8"))
    apart = {id(part) for node in ast.walk(tree) if isinstance(node, ast.JoinedStr) for part in ast.walk(node) if part is not node}
    apart |= {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}  # what says something to the reader of the code
    said = {_text(node) for node in ast.walk(tree) if id(node) not in apart}
    return {text for text in said if re.fullmatch(r"[A-Z“].* .*[.!]", text)}


def _text(node: ast.AST) -> str:
    if isinstance(node, ast.JoinedStr):
        return "".join(part.value if isinstance(part, ast.Constant) else "{}" for part in node.values)
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else ""


@pytest.mark.parametrize("file", SPEAK)
def test_every_sentence_has_its_german(file):
    assert sentences(file) - GERMAN.keys() == set()


def test_the_sentences_are_found_at_all():
    assert sum(len(sentences(file)) for file in SPEAK) > 35


def test_what_a_field_should_have_been_has_its_german():
    assert {what for _, _, what in shape._RULES} - GERMAN.keys() == set()


@pytest.mark.parametrize("taken", [Taken(3, 4, 0), Taken(3, 4, 5)])
def test_what_became_of_a_file_has_its_german(taken):
    assert re.sub(r"\d+", "{}", taken.sentence) in GERMAN


@pytest.mark.parametrize(("english", "german"), GERMAN.items())
def test_the_german_fills_every_place(english, german):
    places = english.count("{}")
    assert sorted(re.findall(r"\{(.*?)\}", german)) == [str(n + 1) for n in range(places)]
