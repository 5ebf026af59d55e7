"""Offers of every method come out the same, to the byte, under both runtimes, from random readings and parts."""

from __future__ import annotations

import json
import random

import pytest
from kernel.door import call

from tests.kernel.bench import METRIC, NOW, PEOPLE, THOU
from tests.kernel_two_runtimes.phone_python import PhonePython

from .every_method import MethodBench, procedure


@pytest.fixture(scope="module")
def phone():
    running = PhonePython()
    yield running
    running.stop()


def random_day(seed: int) -> MethodBench:
    chance, bench = random.Random(seed), MethodBench()

    def inches(middle: float, thou: int) -> str:
        return f"{middle + chance.randrange(-thou * 10, thou * 10 + 1) / 10_000:.4f}"

    for point, middle, thou in (("bore", 4.0302, 1), ("gap", 0.017, 5), ("deck", 9.002, 6), ("piston_height", 9.0, 1), ("height", 1.9, 40),
                                ("wanted_length", 7.8, 30), ("intake_gap", 0.010, 6), ("exhaust_gap", 0.010, 6), ("screw_lash", 0.010, 9), ("plunger", 0.030, 25)):  # fmt: skip
        bench.reads(point, *[inches(middle, thou) for _ in bench.stations(point)])
    bench.reads("stroke", "3.48")
    bench.reads("chamber", *[f"{chance.randrange(580, 700) / 10}" for _ in "1234"], unit="cm3")
    bench.reads("arm", "1.5", "1.5", unit=":1")
    bench.measures(gasket=inches(0.040, 8), **{f"piston_{n}": inches(4.0260, 1) for n in "1234"})
    bench.measures("mm", **{f"{slot}_shim_{station}": f"{2.4 + 0.05 * chance.randrange(8):.2f}" for slot, station in (("intake", "I1"), ("intake", "I2"), ("exhaust", "E1"), ("exhaust", "E2"))})
    bench.shelves("gasket", thin=inches(0.030, 3), thick=inches(0.045, 3))
    bench.shelves("piston", spare=inches(4.0260, 1))
    bench.shelves("spring_shim", a="0.015", b="0.030")
    bench.shelves("bucket_shim", "mm", c=f"{2.4 + 0.05 * chance.randrange(8):.2f}")
    bench.marek.write("ring.filed", point="gap", station="1", turns="3")
    bench.reads("gap", inches(0.019, 2), "", "", "")
    return bench


def kinds_of(phone, seed: int) -> set[str]:
    """The kinds of offer in every step of one day, once both runtimes have given the same."""
    bench, seen = random_day(seed), set()
    for step in procedure()["steps"]:
        more = {"people": PEOPLE, "units": METRIC if seed % 2 else THOU, "now": NOW}
        text = json.dumps({"op": "step", "procedure": procedure(), "events": bench.events, "step": step["id"], **more}, ensure_ascii=False)
        here = call(text)
        assert phone.call(text) == here
        view = json.loads(here)
        assert "error" not in view, view
        seen |= {offer["kind"] for offer in view["offers"]}
    return seen


def test_every_step_of_random_days(phone):
    seen = set()
    for seed in range(8):
        seen |= kinds_of(phone, seed)
    assert seen >= {"match", "swap", "cut", "rings", "buckets", "springs", "length", "turns", "none"}
