"""Goals 2, 3 and 5: the keypad has no dead pixel, a thumb hits the key it means, and a check takes few taps."""

from __future__ import annotations

import random

import pytest
from playwright.sync_api import expect

from tests.browser.hand import Hand
from tests.browser.test_main_job import JOURNALS
from tests.kernel.test_gates import measured

from .conftest import AT_ALL, WIDTHS
from .record import number, reached
from .seed import put
from .walk import HELD, SHORT

pytestmark = pytest.mark.browser
MM = 360 / 57.0  # css pixels a millimetre on a phone 57 mm wide at 360 px: 160 pixels an inch, as css has it
KEYS = """() => [...document.querySelectorAll('.keys button')].map((b) => { const r = b.getBoundingClientRect();
  return {key: b.dataset.testid.slice(4), x: r.x, y: r.y, width: r.width, height: r.height}; })"""
DEAD = """() => { const box = document.querySelector('.keys').getBoundingClientRect(); let dead = 0;
  for (let x = Math.ceil(box.left); x < Math.floor(box.right); x++) for (let y = Math.ceil(box.top) + 2; y < Math.floor(box.bottom); y++)
    if (!document.elementFromPoint(x, y)?.closest('.keys button')) dead++;
  return dead; }"""


@pytest.mark.parametrize("width", WIDTHS)
def test_goal_2_no_dead_pixel_in_the_keypad(shop, new_phone, width):
    hand = Hand(new_phone(viewport={"width": width, "height": 740}).new_page(), str(shop))
    hand.logs_in("marek", "marek-bench")
    hand.opens("journals")
    expect(hand.at("key-tick")).to_be_visible()
    assert reached(2, f"dead pixels in the keypad at {width} px", hand.page.evaluate(DEAD), "pixels", "<= 0")


def test_goal_3_a_thumb_hits_the_key_it_means(bench_hand):
    """Aimed at the middle of a key, with the scatter of a thumb; what the page says was hit counts."""
    hand, chance, times, ok = bench_hand, random.Random(3), number(1000, 100), True
    hand.opens("journals")
    before = ticks(hand)
    for width in WIDTHS:
        hand.takes_a_phone(width)
        expect(hand.at("key-tick")).to_be_visible()
        wrong = missed(hand, chance, times)
        ok &= reached(3, f"wrong keys of {times} taps at sigma 2 mm at {width} px", round(100 * wrong / times, 2), "%", "<= 1")
    stray = ticks(hand) - before
    assert reached(3, f"readings kept that nobody ticked at {AT_ALL}", stray, "readings", "<= 0") and ok


def missed(hand: Hand, chance: random.Random, times: int) -> int:
    """Taps on another key than the one aimed at."""
    keys, edge, wrong = hand.page.evaluate(KEYS), hand.size, 0
    for _ in range(times):
        aim = chance.choice([k for k in keys if k["key"] != "tick"])
        x = chance.gauss(aim["x"] + aim["width"] / 2, 2 * MM)
        y = chance.gauss(aim["y"] + aim["height"] / 2, 2 * MM)
        hit = hand.page.evaluate("([x, y]) => document.elementFromPoint(x, y)?.closest('.keys button')?.dataset.testid.slice(4) ?? ''", [x, y])
        hand.page.touchscreen.tap(min(edge["width"] - 1, max(0, x)), min(edge["height"] - 1, max(0, y)))
        wrong += hit != aim["key"]
    return wrong


# How many lines each refusal of the keys takes where it is shown, in every language that lies in the page. Counted by the
# text itself: its box has the height of one line whatever stands in it.
LINES = """() => { const note = document.querySelector('[data-testid=read-note]'), was = note.textContent, found = {}, text = document.createRange();
  note.classList.add('astray');
  for (const words of document.querySelectorAll('script[id^=words-]'))
    for (const says of Object.values(JSON.parse(words.textContent).keypad.refused)) {
      note.textContent = says || '0'; text.selectNodeContents(note); found[says] = new Set([...text.getClientRects()].map((line) => line.top)).size; }
  note.classList.remove('astray'); note.textContent = was; return found; }"""


@pytest.mark.parametrize("width", WIDTHS)
def test_what_the_keys_refuse_is_said_in_one_line(shop, new_phone, width):
    """There is room for no more between the read-out and the keys."""
    hand = Hand(new_phone(viewport={"width": width, "height": 740}).new_page(), str(shop))
    hand.logs_in("marek", "marek-bench")
    hand.opens("journals")
    expect(hand.at("read-note")).to_be_visible()
    lines = hand.page.evaluate(LINES)
    assert len(lines) > 12 and {says: n for says, n in lines.items() if n != 1} == {}


# Whatever a thumb would have to do beside tapping keys.
WATCH = """() => { Object.assign(window, {taps: 0, scrolls: 0, swipes: 0, keyboards: 0});
  addEventListener('click', () => window.taps++, true); addEventListener('scroll', () => window.scrolls++, true);
  addEventListener('touchmove', () => window.swipes++, true);
  addEventListener('focusin', (e) => { if (e.target.matches('input, textarea, select, [contenteditable]')) window.keyboards++; }, true); }"""


@pytest.mark.parametrize("width", WIDTHS)
def test_goal_5_two_digits_in_three_taps(shop, new_phone, width):
    """2, 4, tick: the point stands where it belongs."""
    bench = measured()
    for step in ("crank_in", "caps_torqued", "thrust_seated", "thrust_cap_torqued", "crank_turns"):
        bench.marek.does(step)
    build = f"b-three-taps-{width}"
    put(str(shop), bench, build, f"Three taps {width}")
    hand = Hand(new_phone(viewport={"width": width, "height": 740}).new_page(), str(shop))
    hand.logs_in("marek", "marek-bench")
    expect(hand.at(f"build-{build}")).to_be_visible(timeout=30_000)
    hand.opens("crank_end_play", build)
    expect(hand.at("key-tick")).to_be_visible()
    hand.page.evaluate(WATCH)
    for key in ("2", "4", "tick"):
        hand.at(f"key-{key}").tap()
    expect(hand.at("verdict")).to_contain_text("2.4")
    taps, *rest = hand.page.evaluate("[window.taps, window.scrolls, window.swipes, window.keyboards]")
    ok = reached(5, f"taps for a two-digit reading in thou at {width} px", taps, "taps", "<= 3")
    assert reached(5, f"scrolls, swipes and system keyboards for it at {width} px", sum(rest), "times", "<= 0") and ok


def ticks(hand: Hand) -> int:
    from tests.browser.test_nothing_lost import ROWS

    return len([row for row in hand.page.evaluate(ROWS) if row["type"] == "reading"])


def test_goal_5_few_taps_and_no_scroll(shop, bench_hand):
    """Counted at the screen itself: every tap that reaches it between the first key and the last verdict."""
    hand = bench_hand
    hand.opens("cam_end_play", f"{HELD}-360")
    hand.at("about").locator("summary").wait_for()
    hand.page.evaluate(WATCH)
    hand.page.evaluate(f"location.hash = '#/build/{SHORT}/step/journals'")
    hand.reads_all(JOURNALS)
    expect(hand.at("next-button").first).to_be_visible()
    first = hand.page.evaluate("window.taps")
    hand.page.evaluate("window.taps = 0")
    for station in ("1", "2", "3", "4", "5"):
        hand.page.evaluate("window.back = window.taps")
        hand.at(f"station-{station}").tap()
        hand.page.evaluate("window.taps = window.back")  # finding the place again is not part of a check done in order
        expect(hand.at("key-tick")).to_be_visible()
        hand.types("82" if station == "1" else "80")
        hand.at("key-tick").tap()
        expect(hand.page.locator(".what").or_(hand.at("next-button")).first).to_be_visible()
        hand.page.wait_for_timeout(250)
    again = hand.page.evaluate("window.taps")
    print(f"  five journals from nothing: {first} taps; five again with their common digits held: {again} taps")
    ok = reached(5, "taps for five journals after the common digits", again, "taps", "<= 16")
    rest = hand.page.evaluate("window.scrolls + window.swipes + window.keyboards")
    ok &= reached(5, "scrolls, swipes and system keyboards in the check", rest, "times", "<= 0")
    hand.page.evaluate(f"location.hash = '#/build/{HELD}-360/step/cam_end_play'")
    hand.at("optional-cam_float").or_(hand.at("next-button")).first.wait_for()
    assert ok
