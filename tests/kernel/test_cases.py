"""The corpus of whole builds: each case's log must give the state it states."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from kernel.door import answer, call

FILES = sorted((Path(__file__).parent.parent / "cases").glob("*.json"))


def test_the_corpus_is_not_empty():
    assert len(FILES) >= 6


@pytest.mark.parametrize("file", FILES, ids=lambda f: f.stem)
def test_case(file):
    case = json.loads(file.read_text())
    opened = case["requests"][0]
    seen = answer({**opened, "op": "overview"})
    assert seen["next"] == case["expect"]["next"]
    assert {s["id"]: s["status"] for s in seen["steps"]} == case["expect"]["statuses"]
    for request in case["requests"]:
        assert not json.loads(call(json.dumps(request))).get("error")
