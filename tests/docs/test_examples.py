"""The examples of the documents run, and answer as written."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
from kernel.door import OPS, answer

ROOT = Path(__file__).parents[2]
DOOR = ROOT / "docs" / "design" / "kernel-door.md"
PAIR = re.compile(r"```json request\n(.*?)```\n```json answer\n(.*?)```", re.S)
PAIRS = [(json.loads(q), json.loads(a)) for q, a in PAIR.findall(DOOR.read_text())]


def holds(expected: object, found: object) -> bool:
    """Whether everything in `expected` is in `found`; lists item by item from the start."""
    if isinstance(expected, dict):
        return isinstance(found, dict) and all(k in found and holds(v, found[k]) for k, v in expected.items())
    if isinstance(expected, list):
        return isinstance(found, list) and len(found) >= len(expected) and all(holds(e, f) for e, f in zip(expected, found, strict=False))
    return expected == found


def test_there_are_examples():
    assert len(PAIRS) >= 5


@pytest.mark.parametrize(("request_", "expected"), PAIRS, ids=[q["op"] for q, _ in PAIRS])
def test_example(request_, expected):
    found = answer(request_)
    assert holds(expected, found), found


def test_the_door_works_from_the_command_line_with_nothing_installed():
    done = subprocess.run(
        [sys.executable, "-I", "-c", "import sys; sys.path.insert(0, '.'); import runpy; runpy.run_module('kernel', run_name='__main__')"],
        input=json.dumps(PAIRS[0][0]),
        cwd=ROOT / "backend",
        capture_output=True,
        text=True,
        check=True,
    )
    assert holds(PAIRS[0][1], json.loads(done.stdout))


def test_every_operation_is_named_in_the_document():
    text = DOOR.read_text()
    assert [op for op in OPS if f"`{op}`" not in text and f'"{op}"' not in text] == []
