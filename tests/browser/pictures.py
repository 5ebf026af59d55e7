"""Takes the pictures of README and docs/guide from the demo shop, so that they show the app as it is.

Run it with `make pictures`.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

from tests.services import browsers, server

from .hand import Hand
from .test_main_job import BORES, JOURNALS

GUIDE = Path(__file__).parents[2] / "docs" / "guide"


def take(hand: Hand, name: str) -> None:
    hand.page.wait_for_timeout(400)
    hand.page.screenshot(path=GUIDE / f"{name}.png")


def walk(hand: Hand) -> None:
    """The sprint-boat V8 up to the hold at cam end play, with a picture at each thing worth seeing."""
    hand.opens("journals")
    hand.reads_all(JOURNALS)
    hand.leaves("Shells into block and caps")
    take(hand, "list")
    hand.ticks_all()
    hand.leaves("Main caps on, for measuring")
    hand.pulls(13)
    take(hand, "torque")
    hand.pulls()
    hand.leaves("Read the bearing bores")
    take(hand, "keypad")
    hand.reads_all(BORES)
    take(hand, "step")
    hand.goes_on()
    hand.at("offer-trial").first.scroll_into_view_if_needed()
    take(hand, "correction")


def look_around(hand: Hand) -> None:
    """Pictures of the demo's other builds, which stand in the middle of their work."""
    hand.opens("facts", "b-hill-climb")
    hand.page.locator('[data-testid^="option-"]').first.wait_for()
    take(hand, "choice")
    hand.opens("springs", "b-hill-climb-race")
    hand.at("plan-map").wait_for()
    take(hand, "valves")
    hand.page.goto(f"{hand.base}/#/build/b-jet-sprint/parts")
    hand.at("section").nth(1).locator("summary").tap()
    hand.page.locator('[data-testid^="part-"]').first.wait_for()
    take(hand, "parts")


def main() -> None:
    GUIDE.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        running = server.embedded(Path(folder))
        running.start()
        browser = browsers.launch(playwright)
        try:
            hand = Hand(browser.new_context(**browsers.PHONE).new_page(), str(running))
            hand.logs_in("marek", "marek-bench")
            walk(hand)
            hand.page.goto(f"{running}/#/build/b-sprint-boat")
            take(hand, "build")
            look_around(hand)
            wide = browser.new_context(viewport={"width": 1100, "height": 800})
            board = Hand(wide.new_page(), str(running))
            board.logs_in("tomasz", "tomasz-bench", tap=False)
            board.page.goto(f"{running}/#/board")
            take(board, "board")
        finally:
            browser.close()
            running.stop()


if __name__ == "__main__":
    main()
