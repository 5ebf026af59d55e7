"""One kernel, two runtimes: the phone's Python and the server's give the same answer to the same request, to the byte."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from kernel.door import call

from .phone_python import PhonePython
from .random_logs import LogMaker, requests

CASES = sorted((Path(__file__).parent.parent / "cases").glob("*.json"))
PROCEDURES = sorted((Path(__file__).parent.parent / "cases" / "procedures").glob("*.json"))
SEEDS = range(12)


def agree(phone, asked: list[dict]) -> list[dict]:
    """Every answer, once both runtimes have given the same one."""
    answers = []
    for request in asked:
        text = json.dumps(request, ensure_ascii=False)
        here, there = call(text), phone.call(text)
        assert there == here, f"{request['op']} {request.get('step', '')}: the phone says\n{there[:2000]}\nthe server says\n{here[:2000]}"
        answers.append(json.loads(here))
    return answers


def test_there_is_a_corpus():
    assert CASES and PROCEDURES


@pytest.mark.parametrize("case", CASES, ids=lambda path: path.stem)
def test_the_corpus_is_answered_alike(case, phone):
    asked = json.loads(case.read_text(encoding="utf-8"))["requests"]
    assert asked
    agree(phone, asked)


@pytest.mark.parametrize("seed", SEEDS)
def test_random_logs_are_answered_alike(seed, phone):
    procedure = json.loads(PROCEDURES[seed % len(PROCEDURES)].read_text(encoding="utf-8"))
    answers = agree(phone, requests(seed, procedure, length=20 + seed * 10))
    assert not [answer["error"] for answer in answers if answer.get("error") and len(answer) == 1]


def test_the_quick_door_says_the_same(phone):
    procedure = json.loads(PROCEDURES[0].read_text(encoding="utf-8"))
    quick = PhonePython("quick")
    try:
        for request in requests(3, procedure, length=40):
            asked = json.dumps(request)
            assert json.loads(quick.call(asked)) == json.loads(call(asked))
    finally:
        quick.stop()


def test_random_logs_reach_every_kind_of_event():
    procedure = json.loads(PROCEDURES[0].read_text(encoding="utf-8"))
    kinds = {event["type"] for seed in SEEDS for event in LogMaker(seed, procedure).log(20 + seed * 10)}
    listed = (Path(__file__).parents[2] / "docs" / "design" / "events.md").read_text(encoding="utf-8").split("## Types")[1]
    assert {line.split("`")[1] for line in listed.splitlines() if line.startswith("| `")} <= kinds


@pytest.mark.parametrize("text", ["", "[]", "{", '{"op":"none"}', '{"op":"step","build":"b-nowhere","step":"x"}', '{"op":"open"}', '"é"'])
def test_bad_requests_are_refused_alike(text, phone):
    if text:
        assert phone.call(text) == call(text)
    assert "error" in json.loads(call(text))


def test_large_numbers_and_other_letters_pass_whole(phone):
    unit = {"dimension": "length", "num": 25_400_000, "den": 1, "decimals": 4, "label": "in"}
    request = {"op": "number", "text": "123456.7891", "from": unit, "to": unit, "decimals": 4}
    (answer,) = agree(phone, [request])
    assert answer["value"] == 3_135_802_443_140 and answer["written"] == "123456.7891"
