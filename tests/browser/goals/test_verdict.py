"""Goals 9 and 15: nothing moves when a verdict appears, and every figure is shown in the units of whoever asks."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from tests.browser.hand import Hand

from .conftest import AT_ALL, WIDTHS
from .record import reached
from .walk import HELD, SHORT

pytestmark = pytest.mark.browser
# Counted from the tick until the verdict has come to rest; what a tap on another button does to the page is its own affair.
SHIFTS = """() => { window.moved = 0; window.counts = false; window.what = [];
  new PerformanceObserver((l) => l.getEntries().forEach((e) => { const went = e.sources.some((s) => Math.abs(s.previousRect.x - s.currentRect.x) >= 0.5 || Math.abs(s.previousRect.y - s.currentRect.y) >= 0.5);
    if (window.counts && went) { window.moved += e.value;
    window.what.push(...e.sources.map((s) => (s.node?.dataset?.testid || s.node?.className || s.node?.nodeName || '?') + JSON.stringify([s.previousRect, s.currentRect]))); } }))
    .observe({type: 'layout-shift', buffered: false});
  addEventListener('click', (e) => { window.counts = !!e.target.closest('[data-testid="key-tick"]'); }, true); }"""


@pytest.mark.parametrize("width", WIDTHS)
def test_goal_9_nothing_moves_when_a_verdict_appears(shop, new_phone, width):
    hand = Hand(new_phone(viewport={"width": width, "height": 740}).new_page(), str(shop))
    hand.logs_in("marek", "marek-bench")
    hand.opens("main_bores", f"{HELD}-{width}")
    hand.at("station-2").tap()
    expect(hand.at("key-tick")).to_be_visible()
    hand.page.wait_for_timeout(300)
    hand.page.evaluate(SHIFTS)
    for text in ("2.4504", "2.4499", "2.4519"):
        hand.reads(text)
        expect(hand.at("said")).not_to_be_empty()
        hand.page.wait_for_timeout(600)
        hand.at("again-button").tap()
        expect(hand.at("key-tick")).to_be_visible()
    moved, what = hand.page.evaluate("[window.moved, window.what]")
    assert reached(9, f"layout shift of three verdicts at {width} px", round(moved, 4), "shift", "<= 0"), what


def test_goal_15_inch_and_metric_are_the_same_figure(bench_hand):
    """Of each width the same reading in thou and in millimetres, and the whole of what is said of it on the screen."""
    wrong, cut = [], []
    for width in WIDTHS:
        bench_hand.takes_a_phone(width)
        for unit, reading, wants in BOTH:
            said, shown = says(bench_hand, f"{HELD}-{width}", unit, reading)
            wrong += [(width, unit, want, said) for want in wants if want not in said]
            cut += [] if shown else [(width, unit, said)]
        print(f"  {width} px: ", said.replace("\n", " "))
    ok = reached(15, f"figures that are not the same in inch and metric at {AT_ALL}", len(wrong), "figures", "<= 0")
    ok &= reached(15, f"verdicts cut short or beside the screen at {AT_ALL}", len(cut), "verdicts", "<= 0")
    assert ok, (wrong, cut)


# The unit of whoever asks, what is read in it, and what has to be told of it.
BOTH = (
    ("thou", "2.4504", ("2.5", "thou", "0.0025 in", "0.064 mm")),
    ("mm", "062.240", ("0.063 mm", "2.5 thou", "0.0025 in")),
)
WHOLE = """() => [...document.querySelectorAll('.verdict, .verdict *')].every((el) => { const box = el.getBoundingClientRect();
  return box.left >= -0.5 && box.right <= innerWidth + 0.5 && (el instanceof SVGElement || el.scrollWidth <= el.clientWidth + 1 || getComputedStyle(el).display === 'inline'); })"""


def says(hand: Hand, build: str, unit: str, reading: str) -> tuple[str, bool]:
    """What the verdict tells whoever works in this unit, and whether all of it is on the screen."""
    hand.page.goto(f"{hand.base}/#/settings")
    hand.at(f"set-{unit}").tap()
    expect(hand.at(f"set-{unit}")).to_have_attribute("aria-pressed", "true")
    hand.opens("main_bores", build)
    expect(hand.at("rule")).to_be_visible()
    hand.at("station-4").tap()
    expect(hand.at("key-tick")).to_be_visible()
    asked = hand.page.locator(".unit").inner_text()
    assert unit != "mm" or "mm" in asked, asked
    hand.reads(reading)
    said = hand.at("verdict").inner_text() + hand.page.locator(".verdict").inner_text()
    return said, hand.page.evaluate(WHOLE)


SHORT_PHONES = ((320, 640), (375, 667))
OFF = """() => { const main = document.querySelector('main').getBoundingClientRect();
  const keys = [...document.querySelectorAll('.keys button')].map((b) => [b.dataset.testid, b.getBoundingClientRect(), innerHeight]);
  const picture = [...document.querySelectorAll('main svg[role=img]')].filter((p) => getComputedStyle(p).visibility === 'visible').map((p) => ['picture', p.getBoundingClientRect(), main.bottom]);
  return [...keys, ...picture].filter(([, box, floor]) => box.bottom > floor + 0.5 || box.top < 0).map(([name]) => name); }"""


def test_goal_1_a_short_phone_shows_every_key_and_the_whole_verdict(bench_hand):
    """With keys of the usual size and with those for gloves; at a verdict its picture, none of it under the words."""
    hand, off = bench_hand, []
    for size in ("normal", "big"):
        hand.page.goto(f"{hand.base}/#/settings")
        hand.at(f"set-{size}").tap()
        expect(hand.at(f"set-{size}")).to_have_attribute("aria-pressed", "true")
        hand.opens("journals", SHORT)
        expect(hand.at("key-tick")).to_be_visible()
        off += off_the_screen(hand, size)
    hand.page.goto(f"{hand.base}/#/settings")
    hand.at("set-normal").tap()
    hand.opens("main_bores", f"{HELD}-360")
    hand.at("station-2").tap()
    hand.reads("2.4504")
    expect(hand.at("verdict")).to_be_visible()
    off += off_the_screen(hand, "verdict")
    assert reached(1, "keys and verdicts not wholly on a short phone of 320x640 or 375x667", len(off), "things", "<= 0"), off


def off_the_screen(hand: Hand, what: str) -> list[tuple]:
    found = []
    for width, height in SHORT_PHONES:
        hand.page.set_viewport_size({"width": width, "height": height})
        hand.page.wait_for_timeout(100)
        found += [(what, width, name) for name in hand.page.evaluate(OFF)]
    hand.page.set_viewport_size(hand.size)
    return found
