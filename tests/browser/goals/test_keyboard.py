"""Goal 12, the rest: a whole build by keyboard alone, the verdict announced once, reduced motion honoured."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from tests.browser.hand import Hand
from tests.browser.test_main_job import BORES, JOURNALS

from .record import reached

pytestmark = pytest.mark.browser
STEPS = 60
FOCUS = """(id) => { const el = [...document.querySelectorAll(`[data-testid^="${id}"]`)].find((e) => e.offsetParent !== null); return !!el && document.activeElement === el; }"""


class Keys:
    """Hands that have a keyboard and nothing else."""

    def __init__(self, hand: Hand):
        self.hand, self.page, self.steps = hand, hand.page, 0

    def press(self, key: str) -> None:
        self.page.keyboard.press(key)

    def tabs_to(self, testid: str) -> None:
        expect(self.hand.at(testid).first).to_be_visible()
        for _ in range(STEPS):
            if self.page.evaluate(FOCUS, testid):
                return
            self.press("Tab")
        raise AssertionError(f"“{testid}” cannot be reached with Tab")

    def types(self, text: str) -> None:
        expect(self.hand.at("key-tick")).to_be_visible()
        digits = text.replace(".", "")
        if self.hand.at("read-out").locator("i.cursor").count():
            while not digits.startswith(self.hand.held()):
                self.press("Backspace")
            digits = digits[len(self.hand.held()) :]
        for digit in digits:
            self.page.keyboard.press(digit, delay=5)
            self.page.wait_for_timeout(60)
        asked = self.page.locator(".what").inner_text()
        self.press("Enter")
        self.hand.sees_it_kept(asked)

    def goes_on(self, title: str) -> None:
        self.steps += 1
        self.tabs_to("next-button")
        self.press("Enter")
        self.hand.title(title)


@pytest.fixture
def keys(shop, new_phone):
    context = new_phone(reduced_motion="reduce")
    hand = Hand(context.new_page(), str(shop))
    hand.page.goto(hand.base)
    page = hand.page
    page.keyboard.press("Tab")
    page.get_by_label("Name").focus()
    page.keyboard.type("juno")
    page.keyboard.press("Tab")
    page.keyboard.type("juno-bench")
    page.keyboard.press("Enter")
    expect(page.get_by_test_id("build-b-sprint-boat")).to_be_visible(timeout=20_000)
    return Keys(hand)


def test_goal_12_a_build_by_keyboard_alone(keys):
    """From the log-in to a correction, with Tab, Enter and digits; no finger on the glass and no pointer."""
    hand, page = keys.hand, keys.page
    keys.tabs_to("build-b-sprint-boat")
    keys.press("Enter")
    keys.tabs_to("step-link-journals")
    keys.press("Enter")
    hand.title("Read the main journals")
    for text in JOURNALS:
        keys.types(text)
    keys.goes_on("Shells into block and caps")
    ticks = page.locator('[data-testid^="confirm-"][aria-pressed="false"]')
    while left := ticks.count():
        keys.press("Enter")
        expect(ticks).to_have_count(left - 1)
    keys.goes_on("Main caps on, for measuring")
    while said := hand.asked_to_pull():
        page.evaluate("document.activeElement?.blur()")
        keys.press("Enter")
        hand.waits_until(lambda said=said: hand.asked_to_pull() != said)
    keys.goes_on("Read the bearing bores")
    announced = 0
    page.evaluate("""() => { window.announced = []; new MutationObserver(() => { const said = document.querySelector('[data-testid=said]').innerText;
      if (said) window.announced.push(said); }).observe(document.querySelector('[data-testid=said]'), {childList: true, characterData: true, subtree: true}); }""")
    for text in BORES:
        keys.types(text)
        expect(hand.at("said")).not_to_be_empty()
        announced += 1
        page.evaluate("document.activeElement?.blur()")
        keys.press("Enter")
    said = page.evaluate("window.announced.length")
    keys.tabs_to("offer-apply")
    moving = page.evaluate("document.getAnimations().length")
    ok = reached(12, "verdicts announced for each verdict", said / announced, "times", "<= 1")
    ok &= reached(12, "things that move where less motion is wished", moving, "animations", "<= 0")
    ok &= reached(12, "steps of a build done by keyboard alone, log-in to correction", keys.steps + 1, "steps", ">= 4")
    assert ok and said == announced
