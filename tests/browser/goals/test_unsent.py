"""Goal 16, the rest: with the server gone the step itself says how much is unsent, when the last went, and why it does not go."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect

from .record import reached

pytestmark = pytest.mark.browser


def test_goal_16_the_count_the_time_and_the_reason(shop, bench_hand):
    hand = bench_hand
    hand.is_offline_safe()
    hand.opens("journals")
    expect(hand.at("send-state").first).to_contain_text("all sent")
    shop.stop()
    hand.reads("2.4480")
    said = hand.at("send-state").first
    expect(said).to_contain_text("1 to send")
    expect(said).to_contain_text("did not answer", timeout=30_000)
    on_the_step = said.inner_text()
    hand.page.goto(f"{hand.base}/#/today")
    expect(hand.at("send-trouble")).to_be_visible()
    on_today = hand.at("send-state").first.inner_text() + " " + hand.at("send-trouble").inner_text()
    wants = (r"1 to send", r"last \d\d:\d\d", r"did not answer")
    missing = [(where, want) for where in (on_the_step, on_today) for want in wants if not re.search(want, where)]
    assert reached(16, "of count, time and reason, missing on the step or on Today with the server gone", len(missing), "things", "<= 0"), missing
