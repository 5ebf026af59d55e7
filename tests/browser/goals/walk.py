"""Every state of the screens, one after the other, on one phone: whoever measures is called at each."""

from __future__ import annotations

from collections.abc import Callable

from playwright.sync_api import expect

from tests.browser.hand import Hand

HELD = "b-held"
CAPS = "b-caps"
VALVES = "b-hill-climb-race"
WHOLE = "b-hill-climb"
SHORT = "b-sprint-boat"


def walk(hand: Hand, width: int, see: Callable[[str], None]) -> None:
    """Each width has builds of its own, see `conftest`. `see(state)` is called with the state on the screen and at rest."""

    def at(name: str, *ready) -> None:
        for each in ready:
            expect(each.first).to_be_visible(timeout=20_000)
        hand.page.wait_for_timeout(120)
        see(name)

    held = f"{HELD}-{width}"
    _calm_screens(hand, held, at)
    _step_screens(hand, at)
    _hands(hand, at)
    _list_and_torque(hand, f"{CAPS}-{width}", at)
    _held(hand, held, at)


def _calm_screens(hand: Hand, held: str, at) -> None:
    go, page = hand.at, hand.page
    page.goto(f"{hand.base}/#/today")
    at("today", go(f"build-{SHORT}"), go("next-button"))
    go("start-build").tap()
    at("start a build", go("build-start"))
    page.goto(f"{hand.base}/#/build/{WHOLE}")
    at("a build", go("next-button"))
    page.goto(f"{hand.base}/#/build/{held}/parts")
    at("parts, folded", go("section"))
    go("section").first.locator("summary").tap()
    at("parts", page.locator('[data-testid^="part-"]'))
    page.locator('[data-testid^="part-"]').first.tap()
    at("one part", go("part-save"))
    page.goto(f"{hand.base}/#/build/{held}/findings")
    at("findings", page.get_by_role("heading", level=1))
    page.goto(f"{hand.base}/#/build/b-nowhere")
    at("a wrong address", go("lost"))
    page.goto(f"{hand.base}/#/build/{held}/sheet")
    at("sheet", page.get_by_role("table"))
    page.goto(f"{hand.base}/#/settings")
    at("settings", go("set-thou"))
    page.goto(f"{hand.base}/#/practice")
    at("practice", go("build-start"))
    page.goto(f"{hand.base}/#/board")
    at("board", go(f"board-{SHORT}"))


def _step_screens(hand: Hand, at) -> None:
    go, page = hand.at, hand.page
    hand.opens("facts", WHOLE)
    at("choose", page.locator('[data-testid^="option-"]'))
    hand.opens("journals", SHORT)
    at("read", go("key-tick"))
    go("key-tick").tap()
    at("refused", go("read-note"))
    hand.types("12")
    go("key-3").tap()
    at("typing", go("key-tick"))
    hand.types("44")
    go("key-tick").tap()
    at("asked about once", go("ask"))
    go("ask-again").tap()
    hand.opens("shells_in", SHORT)
    at("waits", go("next-button"))


def _hands(hand: Hand, at) -> None:
    """The keys for the left hand, and for gloves; sixteen places on a plan."""
    go, page = hand.at, hand.page
    for name, on, off in (("left hand", "set-left", "set-right"), ("gloves", "set-big", "set-normal")):
        page.goto(f"{hand.base}/#/settings")
        go(on).tap()
        expect(go(on)).to_have_attribute("aria-pressed", "true")
        hand.opens("journals", SHORT)
        at(name, go("key-tick"))
        page.goto(f"{hand.base}/#/settings")
        go(off).tap()
        expect(go(off)).to_have_attribute("aria-pressed", "true")
    hand.opens("lash", VALVES)
    at("many places", go("plan-map"))
    go("plan-map").tap()
    at("the plan of them", go("station-1").or_(page.locator('[data-testid^="station-"]')))


def _list_and_torque(hand: Hand, caps: str, at) -> None:
    go, page = hand.at, hand.page
    hand.opens("shells_in", caps)
    at("list", page.locator('[data-testid^="confirm-"]'))
    hand.ticks_all()
    at("list ticked", go("next-button"))
    hand.opens("caps_for_measuring", caps)
    at("torque", go("torque-pull"))
    hand.pulls(1)
    at("one pulled", go("torque-pull"))


def _held(hand: Hand, held: str, at) -> None:
    """The build that stopped at cam end play: verdicts, a hold, corrections, a concession, torque, undo, the shelf."""
    go, page = hand.at, hand.page
    hand.opens("timing_set", held)
    at("hold", go("hold"))
    go("concede").first.tap()
    at("concession", go("concede-save"))
    hand.opens("cam_end_play", held)
    at("done with a misfit", go("next-button"))
    go("about").locator("summary").tap()
    at("about", go("open-shelf"))
    go("page-cam-end-play").tap()
    at("what a fit is", go("trade"), page.locator("dialog article"))
    go("trade-close").tap()
    go("undo-step").tap()
    at("undo", go("undo-save"))
    hand.opens("main_bores", held)
    go("about").locator("summary").tap()
    go("open-shelf").tap()
    at("shelf", go("shelf-back"))
    for station, text, state in (("1", "2.4499", "under"), ("2", "2.4505", "in"), ("3", "2.4515", "over")):
        hand.opens("journals", held)
        expect(go("next-button").first).to_be_visible()
        hand.opens("main_bores", held)
        hand.title("Read the bearing bores")
        page.wait_for_timeout(300)
        go(f"station-{station}").tap()
        hand.reads(text)
        expect(go("verdict")).to_have_attribute("data-state", state)
        at(f"verdict {state}", go("verdict"))
    go("next-button").first.tap()
    at("correction", go("next-button"))
    hand.opens("caps_for_measuring", held)
    at("torque or done", page.get_by_role("heading", level=1))
