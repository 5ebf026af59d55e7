"""A shop with a build that is held for each width, and phones."""

from __future__ import annotations

import re

import pytest

from tests.browser.hand import Hand
from tests.browser.test_main_job import JOURNALS
from tests.kernel.bench import Bench
from tests.kernel.test_gates import at_cam_end_play

from .record import finished
from .seed import put
from .walk import CAPS, HELD

WIDTHS = (320, 360, 412)
AT_ALL = "320, 360 and 412 px"
GOAL = re.compile(r"test_goal_(\d+)_(\w+)")


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item, call):
    """A check that fails, or cannot even begin, is seen in the table."""
    report = yield
    goal = GOAL.match(item.name)
    if goal and not report.skipped and (report.when == "call" or report.failed):
        finished(int(goal[1]), goal[2].replace("_", " "), report.passed)
    return report


@pytest.fixture(scope="module")
def shop(embedded_server):
    for each in WIDTHS:
        put(str(embedded_server), at_cam_end_play("41.0"), f"{HELD}-{each}", f"Held {each}")
        bench = Bench()
        bench.marek.does("journals", main_journal=JOURNALS)
        put(str(embedded_server), bench, f"{CAPS}-{each}", f"Caps {each}")
    return embedded_server


@pytest.fixture
def bench_hand(shop, new_phone):
    """Marek at a phone of the usual width, logged in; `takes_a_phone` gives him one of another."""
    hand = Hand(new_phone().new_page(), str(shop))
    hand.logs_in("marek", "marek-bench")
    return hand


def shares(total: int) -> list[tuple[int, int]]:
    """The total shared out among the widths, none left over."""
    most = len(WIDTHS) - 1
    return [(width, (total + most - n) // len(WIDTHS)) for n, width in enumerate(WIDTHS)]
