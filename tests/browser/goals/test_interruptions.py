"""Goals 13 and 14: interrupted in the middle, killed at any moment; nothing skipped, nothing twice, nothing lost."""

from __future__ import annotations

import random

import pytest
from playwright.sync_api import Error, expect

from tests.browser.hand import Hand
from tests.browser.test_nothing_lost import own_device, readings
from tests.kernel.test_gates import measured

from .conftest import AT_ALL, WIDTHS
from .record import number, reached
from .seed import put

pytestmark = pytest.mark.browser
PULLS = """() => new Promise((resolve) => { const asked = indexedDB.open("halfthou"); asked.onsuccess = () => {
  const all = asked.result.transaction("events").objectStore("events").getAll();
  all.onsuccess = () => { asked.result.close(); resolve(all.result.filter((e) => e.type === "torque.pulled").map((e) => ({dev: e.dev, n: e.n, build: e.build, step: e.body.step, pass: e.body.pass, bolt: e.body.fastener, again: e.body.again}))); }; }; })"""
# Time goes by while the phone is away, as far as the app can tell.
AWAY = "(() => { const now = Date.now.bind(Date), skew = Number(localStorage.getItem('away') || 0); Date.now = () => now() + skew; })()"
LATER = "localStorage.setItem('away', String(Number(localStorage.getItem('away') || 0) + 90000))"
WAYS = ("kill", "reload", "leave", "other step")


def interrupt(hand: Hand, way: str, address: str) -> None:
    hand.page.evaluate(LATER)
    if way == "kill":
        hand.page.wait_for_timeout(500)  # the step is put by when the thumb rests
        hand.kills_the_tab()
    elif way == "reload":
        hand.page.reload()
    else:
        hand.page.goto(f"{hand.base}/#/{'today' if way == 'leave' else address.replace('caps_for_measuring', 'journals')}")
        hand.page.get_by_role("heading", level=1).wait_for()
        hand.page.evaluate("location.reload()")
        hand.page.wait_for_timeout(300)
        hand.page.goto(f"{hand.base}/#/{address}")


def test_goal_13_a_torque_sequence_survives_interruptions(shop, new_phone):
    times, chance = number(200, 6), random.Random(13)
    context = new_phone()
    context.add_init_script(AWAY)
    hand = Hand(context.new_page(), str(shop))
    hand.logs_in("marek", "marek-bench")
    done = bad = wrong_bolt = unasked = plan = 0
    while done < times:
        plan += 1
        build = f"b-torque-{plan}"
        put(str(shop), up_to_the_caps(), build, f"Torque {plan}")
        hand.page.goto(f"{hand.base}/#/today")
        hand.page.reload()
        expect(hand.at(f"build-{build}")).to_be_visible(timeout=30_000)
        address = f"build/{build}/step/caps_for_measuring"
        hand.page.goto(f"{hand.base}/#/{address}")
        expect(hand.at("torque-pull")).to_be_visible()
        pulled = 0
        while pulled < 30:
            stretch = min(30 - pulled, chance.randint(1, 4))
            hand.pulls(stretch)
            pulled += stretch
            if pulled == 30 or done >= times:
                continue
            hand.takes_a_phone(WIDTHS[done % len(WIDTHS)])
            due = hand.at("torque-pull").get_attribute("data-fastener")
            interrupt(hand, chance.choice(WAYS), address)
            expect(hand.at("torque-pull")).to_be_visible(timeout=20_000)
            hand.waits_until(lambda: hand.at("torque-cue").count() > 0 or hand.page.evaluate("performance.now()") > 8000)
            wrong_bolt += hand.at("torque-pull").get_attribute("data-fastener") != due
            unasked += hand.at("torque-cue").count() == 0
            if hand.at("torque-cue").count():
                hand.at("torque-again").tap()
                expect(hand.at("torque-cue")).to_have_count(0)
            done += 1
        bad += out_of_order(hand, build, up_to_the_caps())
    print(f"  {done} interruptions over {plan} torque plans")
    ok = reached(13, f"pulls skipped or repeated, of {done} interruptions at {AT_ALL}", bad, "pulls", "<= 0")
    ok &= reached(13, f"times it did not come back to the right bolt at {AT_ALL}", wrong_bolt, "times", "<= 0")
    ok &= reached(13, f"times the last bolt was not asked for once more at {AT_ALL}", unasked, "times", "<= 0")
    assert ok


def up_to_the_caps():
    bench = measured()
    last = next(i for i, e in enumerate(bench.events) if e["type"] == "torque.pulled")
    bench.events = bench.events[:last]
    return bench


def out_of_order(hand: Hand, build: str, bench) -> int:
    step = bench.step("caps_for_measuring")["torque"]
    want = [(i + 1, f["id"]) for i in range(len(step["passes"])) for f in step["fasteners"]]
    made = [p for p in hand.page.evaluate(PULLS) if p["build"] == build and p["step"] == "caps_for_measuring"]
    got = [(p["pass"], p["bolt"]) for p in sorted(made, key=lambda p: p["n"]) if not p["again"]]
    return sum(a != b for a, b in zip(got, want, strict=False)) + abs(len(got) - len(want))


def test_goal_14_no_ticked_reading_is_lost(bench_hand):
    """The renderer dies at a random moment after a tick; what was shown as kept is there, and numbers have no gap."""
    hand, chance, times = bench_hand, random.Random(14), number(500, 6)
    lost = gaps = shown = 0
    hand.opens("journals")
    for round_ in range(times):
        hand.takes_a_phone(WIDTHS[round_ % len(WIDTHS)])
        hand.at("station-1").tap()
        expect(hand.at("key-tick")).to_be_visible(timeout=20_000)
        text = f"2.44{70 + round_ % 29}"
        hand.reads(text)
        if round_ % 2:
            hand.page.wait_for_timeout(150)
        else:
            hand.page.wait_for_timeout(chance.randint(0, 60))
        moved = hand.page.locator(".what").filter(has_text="main 1").count() == 0 or hand.at("read-note").filter(has_text="Kept").count() > 0
        before = len([row for row in readings(hand.page) if row["text"] == text])
        shown += moved
        crash(hand)
        after = len([row for row in readings(hand.page) if row["text"] == text])
        lost += moved and after < max(1, before)
        own = own_device(hand.page)
        numbers = sorted(row["n"] for row in hand.page.evaluate(NUMBERS) if row["dev"] == own)
        gaps += numbers != list(range(1, len(numbers) + 1))
        hand.opens("journals")
        expect(hand.at("station-1")).to_be_visible(timeout=20_000)
    print(f"  {times} kills, {shown} with the reading shown as kept")
    ok = reached(14, f"readings shown as kept and lost, of {times} kills at {AT_ALL}", lost, "readings", "<= 0")
    ok &= reached(14, f"kills after which the phone's count had a gap at {AT_ALL}", gaps, "times", "<= 0")
    assert ok and shown


NUMBERS = """() => new Promise((resolve) => { const asked = indexedDB.open("halfthou"); asked.onsuccess = () => {
  const all = asked.result.transaction("events").objectStore("events").getAllKeys();
  all.onsuccess = () => { asked.result.close(); resolve(all.result.map(([dev, n]) => ({dev, n}))); }; }; })"""


def crash(hand: Hand) -> None:
    """The renderer is gone at once, with whatever it held in memory."""
    page = hand.page
    try:
        page.goto("chrome://crash", timeout=3_000)
    except Error:
        pass  # a page that has died answers nobody
    hand.takes_a_new_tab()
    page.close()
    hand.page.goto(hand.base)
    expect(hand.page.get_by_role("heading", level=1)).to_be_visible(timeout=20_000)
