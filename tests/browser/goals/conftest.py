"""A shop with a build that is held for each width, and phones."""

from __future__ import annotations

import pytest

from tests.browser.hand import Hand
from tests.kernel.test_gates import at_cam_end_play

from .seed import put
from .walk import HELD

WIDTHS = (320, 360, 412)


@pytest.fixture(scope="module")
def shop(embedded_server):
    for each in WIDTHS:
        put(str(embedded_server), at_cam_end_play("41.0"), f"{HELD}-{each}", f"Held {each}")
    return embedded_server


@pytest.fixture
def bench_hand(shop, new_phone):
    """Marek at a phone of the usual width, logged in."""
    hand = Hand(new_phone().new_page(), str(shop))
    hand.logs_in("marek", "marek-bench")
    return hand
