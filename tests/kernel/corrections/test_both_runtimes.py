"""Corrections come out the same, to the byte, under the phone's Python and the server's: check values and random benches."""

import json
import random

import pytest
from kernel.door import call

from tests.kernel_two_runtimes.phone_python import PhonePython

TENTH = 2540
THOU = 25400


@pytest.fixture(scope="module")
def phone():
    running = PhonePython()
    yield running
    running.stop()


def both(phone, request):
    text = json.dumps(request)
    here = call(text)
    assert phone.call(text) == here
    return json.loads(here)


def random_bench(seed):
    chance = random.Random(seed)
    stations = [str(at + 1) for at in range(chance.choice([2, 3, 4, 5]))]
    uppers, lowers = {s: "u" + s for s in stations}, {s: "l" + s for s in stations}
    fitted = list(uppers.values()) + list(lowers.values())
    shelf = [{"id": f"x{at}", "kind": chance.choice(["upper", "lower", "either"])} for at in range(chance.randrange(5))]
    walls = {half: (950 + chance.randrange(-5, 6)) * TENTH for half in fitted if chance.random() < 0.8}
    walls |= {half["id"]: (950 + chance.randrange(-8, 9)) * TENTH for half in shelf}
    readings = [{"station": s, "upper": uppers[s], "lower": lowers[s], "clearance": chance.randrange(17, 34) * TENTH} for s in stations]
    rooms = {s: (1925 + chance.randrange(-5, 5)) * TENTH for s in stations if chance.random() < 0.2}
    return {
        "stations": stations,
        "uppers": uppers,
        "lowers": lowers,
        "shelf": shelf,
        "walls": walls,
        "rooms": rooms,
        "readings": readings,
        "low": 20 * TENTH,
        "high": 30 * TENTH,
        "aim": 25 * TENTH,
        "level": chance.choice([None, 3 * TENTH, 6 * TENTH]),
    }


def test_check_values(phone):
    assert both(phone, {"op": "assign", "cost": [[4, 1, 3], [2, 0, 5], [3, 2, 2]]}) == {"columns": [1, 0, 2], "total": 5}
    shims = both(
        phone,
        {
            "op": "shims",
            "play": 50 * THOU,
            "fitted": [],
            "on_hand": [{"id": "a", "thickness": 45 * THOU}],
            "low": 5 * THOU,
            "high": 10 * THOU,
            "aim": 5 * THOU,
            "near": 0,
        },
    )
    assert shims["cures"] and shims["play"] == 5 * THOU


def test_random_benches(phone):
    kinds = set()
    for seed in range(40):
        for proposal in both(phone, {"op": "shells", "case": random_bench(seed)})["proposals"]:
            kinds.add(proposal["kind"])
    assert {"exchange", "shelf", "trial"} <= kinds  # the benches are worth comparing


def test_random_shim_stacks(phone):
    for seed in range(40):
        chance = random.Random(seed)
        shims = [{"id": f"s{at}", "thickness": chance.randrange(3, 20) * THOU // 2} for at in range(chance.randrange(10))]
        both(
            phone,
            {
                "op": "shims",
                "play": chance.randrange(-5, 60) * THOU // 2,
                "fitted": shims[:2],
                "on_hand": shims[2:],
                "low": 5 * THOU,
                "high": 10 * THOU,
                "aim": 7 * THOU,
                "near": chance.choice([0, THOU // 2]),
            },
        )
