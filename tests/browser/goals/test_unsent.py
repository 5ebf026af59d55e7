"""Goal 16, the rest: the step itself says how much is unsent, when the last went, and why it does not go, and all of it can be read."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect

from .conftest import WIDTHS
from .record import reached

pytestmark = pytest.mark.browser
CUT = "() => { const said = document.querySelector('[data-testid=send-state]'); return said.scrollWidth > said.clientWidth + 1 || said.scrollHeight > said.clientHeight + 1; }"
NO_LOGIN = "from shop.models import DeviceToken; DeviceToken.objects.all().delete()"


def test_goal_16_the_count_the_time_and_the_reason(shop, bench_hand):
    hand = bench_hand
    hand.is_offline_safe()
    hand.opens("journals")
    said = hand.at("send-state").first
    expect(said).to_contain_text("all sent")
    shop.stop()
    hand.reads("2.4480")
    expect(said).to_contain_text("1 to send")
    expect(said).to_contain_text("did not answer", timeout=30_000)
    on_the_step, cut = said.inner_text(), cut_at(hand)
    hand.page.goto(f"{hand.base}/#/today")
    expect(hand.at("send-trouble")).to_be_visible()
    on_today = said.inner_text() + " " + hand.at("send-trouble").inner_text()

    shop.start()
    shop.manage("shell", "-c", NO_LOGIN)
    hand.opens("journals")
    hand.page.reload()
    hand.reads("2.4481")  # the one before may have gone while the log-in still held
    expect(said).to_contain_text("log-in has run out", timeout=30_000)
    expect(said).to_contain_text("to send")
    no_login = said.inner_text()
    cut += cut_at(hand)

    wants = (r"1 to send", r"last \d\d:\d\d", r"did not answer")
    missing = [(where, want) for where in (on_the_step, on_today) for want in wants if not re.search(want, where)]
    missing += [(no_login, want) for want in (r"[12] to send", r"log-in has run out") if not re.search(want, no_login)]
    ok = reached(16, "of count, time and reason, missing with the server gone or the log-in run out", len(missing), "things", "<= 0")
    ok &= reached(16, "widths at which the step shows the reason cut short", len(cut), "widths", "<= 0")
    assert ok, (missing, cut)


def cut_at(hand) -> list[int]:
    """The widths at which what is said about sending is not all to be read."""
    found = []
    for width in WIDTHS:
        hand.page.set_viewport_size({"width": width, "height": 740})
        found += [width] if hand.page.evaluate(CUT) else []
    hand.page.set_viewport_size({"width": 360, "height": 740})
    return found
