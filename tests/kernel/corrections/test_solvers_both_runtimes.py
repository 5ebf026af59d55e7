"""Every solver answers the same, to the byte, under the phone's Python and the server's."""

import json
import random

import pytest
from kernel.corrections.ops import OPS
from kernel.door import call

from tests.kernel.corrections.random_requests import MAKERS
from tests.kernel_two_runtimes.phone_python import PhonePython


@pytest.fixture(scope="module")
def phone():
    running = PhonePython()
    yield running
    running.stop()


def test_every_solver_is_asked():
    assert set(MAKERS) == set(OPS)


@pytest.mark.parametrize("op", sorted(MAKERS))
def test_random_requests(op, phone):
    answers = []
    for seed in range(40):
        text = json.dumps(MAKERS[op](random.Random(seed)))
        here = call(text)
        assert phone.call(text) == here, text
        answers.append(here)
    assert len(set(answers)) > 10, "the requests are worth comparing"
    assert not [text for text in answers if text.startswith('{"error"')]


@pytest.mark.parametrize("op", sorted(MAKERS))
def test_a_request_without_its_numbers_is_refused_alike(op, phone):
    text = json.dumps({"op": op})
    assert phone.call(text) == call(text)
    assert "needs something that is not there" in json.loads(call(text))["error"]


def test_what_makes_no_sense_is_refused_with_a_sentence(phone):
    for request in (
        {"op": "turns", "figure": 1, "limit": {"aim": 2}, "pitch": 0},
        {"op": "length", "wanted": [], "step": 5},
        {"op": "buckets", "valves": [], "shelf": [], "step": 0},
        {"op": "cut", "reads": 1, "figures": [], "moves": "sideways"},
        {"op": "match", "figures": [[None]], "now": [0], "limits": {}},
    ):
        text = json.dumps(request)
        assert phone.call(text) == call(text)
        assert json.loads(call(text))["error"].endswith(".")
