"""The parts of a whole engine are one calm page: folded by section, nothing wrong hidden, and back at the part that was tapped."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from .hand import Hand

pytestmark = pytest.mark.browser


@pytest.fixture
def marek(embedded_server, phone):
    hand = Hand(phone.new_page(), str(embedded_server))
    hand.logs_in("marek", "marek-bench")
    return hand


def shows(hand: Hand, build: str) -> None:
    hand.page.goto(f"{hand.base}/#/build/{build}/parts")
    expect(hand.at("section").first).to_be_visible()


def test_a_whole_v8_is_two_screens_at_most(marek):
    shows(marek, "b-jet-sprint")
    assert marek.page.evaluate("document.documentElement.scrollHeight") <= 2 * 740
    assert marek.page.locator('[data-testid^="part-"]:not([data-testid="parts-cost"])').count() == 0


def test_a_part_that_was_tapped_is_come_back_to(marek):
    shows(marek, "b-jet-sprint")
    marek.at("section").filter(has_text="Valve train").locator("summary").tap()
    last = marek.at("section").filter(has_text="Valve train").locator('button[data-testid^="part-"]').last
    last.tap()
    marek.page.get_by_role("button", name="Cancel").tap()
    expect(last).to_be_in_viewport()


def test_a_folded_line_says_what_is_missing_and_the_filter_shows_only_that(marek):
    shows(marek, "b-hill-climb")
    block = marek.at("section").filter(has_text="Block and shells")
    expect(block.locator("summary")).to_contain_text("4 need a name")
    every = marek.at("section").count()
    marek.at("parts-lacking").tap()
    assert 0 < marek.at("section").count() < every
    block.locator("summary").tap()
    expect(block.locator("button")).to_have_count(4)
    expect(block).not_to_contain_text("upper shell")
    marek.at("parts-lacking").tap()
    assert marek.at("section").count() == every
