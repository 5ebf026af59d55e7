"""What the phone showed as ticked is on the phone, whenever the tab dies and however many tabs there are."""

from __future__ import annotations

import random

import pytest
from playwright.sync_api import Page, expect

from tests.kernel.bench import Bench

from .goals.seed import put
from .hand import Hand

pytestmark = pytest.mark.browser

ROWS = """() => new Promise((resolve, reject) => {
  const asked = indexedDB.open("halfthou");
  asked.onerror = () => reject(asked.error);
  asked.onsuccess = () => {
    const all = asked.result.transaction("events").objectStore("events").getAll();
    all.onsuccess = () => { asked.result.close(); resolve(all.result.map((e) => ({dev: e.dev, n: e.n, type: e.type, build: e.build, text: e.body.text ?? ""}))); };
  };
})"""
BUILD = "b-sprint-boat"


@pytest.fixture
def marek(embedded_server, new_phone):
    hand = Hand(new_phone().new_page(), str(embedded_server))
    hand.logs_in("marek", "marek-bench")
    hand.opens("journals")
    expect(hand.at("key-tick")).to_be_visible(timeout=20_000)
    return hand


def readings(page: Page) -> list[dict]:
    return [row for row in page.evaluate(ROWS) if row["type"] == "reading" and row["build"] == BUILD]


DEVICE = """() => new Promise((resolve) => {
  const asked = indexedDB.open("halfthou");
  asked.onsuccess = () => { const one = asked.result.transaction("device").objectStore("device").get("this");
    one.onsuccess = () => { asked.result.close(); resolve(one.result.dev); }; };
})"""


def own_device(page: Page) -> str:
    return page.evaluate(DEVICE)


def test_a_tick_that_was_shown_outlives_the_tab(marek):
    """Killed at a random moment after the tick. Kept or not, there is no half: numbers have no gap, and what was shown is there."""
    moments = random.Random(7)
    shown = 0
    for round_ in range(4):
        text = f"2.44{80 + round_}"
        marek.reads(text)
        if round_ % 2:
            expect(marek.at("next-button").or_(marek.at("key-tick")).first).to_be_visible()
            marek.page.wait_for_timeout(150)
            shown += 1
        else:
            marek.page.wait_for_timeout(moments.randint(0, 40))
        marek.kills_the_tab()
        kept = readings(marek.page)
        assert len([row for row in kept if row["text"] == text]) <= 1
        if round_ % 2:
            assert [row for row in kept if row["text"] == text], f"{text} was shown as kept"
        own = sorted(row["n"] for row in marek.page.evaluate(ROWS) if row["dev"] == own_device(marek.page))
        assert own == list(range(1, len(own) + 1))
        marek.opens("journals")
        expect(marek.at("key-tick").or_(marek.at("next-button")).first).to_be_visible(timeout=20_000)
        if not marek.at("key-tick").is_visible():
            break
    assert shown == 2


def test_two_tabs_share_one_count(embedded_server, new_phone):
    bench = Bench()
    for station in "1234":
        bench.marek.reads(f"main_journal@{station}", "2.4480")
    put(str(embedded_server), bench, "b-two-tabs", "Two tabs")
    marek = Hand(new_phone().new_page(), str(embedded_server))
    marek.logs_in("marek", "marek-bench")
    other = Hand(marek.page.context.new_page(), marek.base)
    for tab in (marek, other):
        tab.opens("journals", "b-two-tabs")
        expect(tab.at("key-tick")).to_be_visible(timeout=20_000)
    done = other.page.get_by_role("button", name="Done")
    expect(done).to_have_count(4)
    marek.reads("2.4480")
    expect(done).to_have_count(5, timeout=10_000)  # the other tab heard of it
    other.opens("shells_in", "b-two-tabs")
    other.ticks_all()
    own = sorted(row["n"] for row in marek.page.evaluate(ROWS) if row["dev"] == own_device(marek.page))
    assert own == list(range(1, len(own) + 1)) and len(own) >= 2
