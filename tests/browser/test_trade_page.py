"""From a verdict to what the fit is and why: one tap, also with no network; and the verdict is still there afterwards."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from .hand import Hand

pytestmark = pytest.mark.browser

STEP = ("main_bores", "b-jet-sprint")


def at_a_verdict(hand: Hand) -> None:
    hand.opens(*STEP)
    hand.at("station-3").tap()
    hand.reads("2.4514")
    expect(hand.at("verdict")).to_be_visible()


def reads_why(hand: Hand) -> None:
    hand.page.get_by_test_id("why").locator("visible=true").tap()
    page = hand.at("trade")
    expect(page).to_contain_text("Limit 2.0–3.0 from the shop's sheet")
    expect(page).to_contain_text("The crank floats on a film of oil")
    expect(page.locator("code").first).to_have_text("main bore − main journal size")


def test_from_a_verdict_and_back_also_with_no_network(embedded_server, phone):
    marek = Hand(phone.new_page(), str(embedded_server))
    marek.logs_in("marek", "marek-bench")
    marek.is_offline_safe()
    marek.waits_until(lambda: marek.page.evaluate("caches.open('halfthou-trade').then((c) => c.keys()).then((k) => k.length)"))
    embedded_server.stop()
    try:
        marek.kills_the_tab()
        at_a_verdict(marek)
        reads_why(marek)
        marek.page.keyboard.press("Enter")  # it would go on from the verdict; the page lies over it
        expect(marek.at("trade")).to_be_visible()
        marek.at("trade-close").tap()
        expect(marek.at("verdict")).to_be_visible()
        expect(marek.at("trade")).to_have_count(0)
    finally:
        embedded_server.start()


def test_of_every_fit_of_a_step_under_more_about_it(embedded_server, phone):
    marek = Hand(phone.new_page(), str(embedded_server))
    marek.logs_in("marek", "marek-bench")
    marek.opens(*STEP)
    marek.at("about").locator("summary").tap()
    names = marek.page.locator('[data-testid^="page-"]')
    expect(names).to_have_text(["Main clearance", "Spread between mains", "Main clearance, hot"])
    marek.at("page-main-spread").tap()
    expect(marek.at("trade").get_by_role("heading").first).to_have_text("Spread between mains")


def test_a_page_that_is_not_here_yet_says_so_and_the_limit_stands(embedded_server, new_phone):
    marek = Hand(new_phone(service_workers="block").new_page(), str(embedded_server))
    marek.page.route("**/trade-*", lambda route: route.abort())
    marek.logs_in("marek", "marek-bench")
    at_a_verdict(marek)
    marek.page.get_by_test_id("why").locator("visible=true").tap()
    expect(marek.at("trade-missing")).to_contain_text("not on this phone yet")
    expect(marek.at("trade")).to_contain_text("Limit 2.0–3.0 from the shop's sheet")
