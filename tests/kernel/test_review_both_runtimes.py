"""Findings and the oil film come out the same, to the byte, under the phone's Python and the server's."""

import json
import random

import pytest
from kernel.door import call

from tests.kernel_two_runtimes.phone_python import PhonePython

from .bench import METRIC, NOW, PEOPLE, THOU
from .test_review_film import mains
from .test_review_parts import begun, swapped
from .test_review_unheld import heights


@pytest.fixture(scope="module")
def phone():
    running = PhonePython()
    yield running
    running.stop()


def both(phone, request):
    text = json.dumps(request, ensure_ascii=False)
    here = call(text)
    assert phone.call(text) == here
    return json.loads(here)


BENCHES = {
    "heights": lambda: heights(("0.000", "0.012"), rod_material="aluminium"),
    "without a choice": lambda: heights(("0.000", "0.012")),
    "film": mains,
    "thin film": lambda: mains(load="20000", oil="sae_8"),
    "parts with another seat": lambda: swapped("used"),
    "parts without a name": begun,
}


@pytest.mark.parametrize("name", list(BENCHES))
@pytest.mark.parametrize("units", [THOU, METRIC | {"language": "de"}], ids=["thou", "mm in German"])
def test_findings(name, units, phone):
    bench = BENCHES[name]()
    request = {"op": "review", "procedure": bench.procedure, "events": bench.events, "people": PEOPLE, "units": units, "now": NOW}
    assert both(phone, request)["findings"]


def test_films(phone):
    chance = random.Random(7)
    for _ in range(60):
        case = {"clearance": chance.randrange(10_000, 200_000), "journal": chance.randrange(20_000_000, 90_000_000)}
        case |= {"length": chance.randrange(5_000_000, 90_000_000), "load": chance.randrange(10**8, 10**11)}
        case |= {"viscosity": chance.randrange(1_000, 100_000), "speed": chance.randrange(100_000, 15_000_000)}
        assert both(phone, {"op": "film", "case": case})["film"] > 0
