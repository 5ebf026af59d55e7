"""Practice: a build that says of itself that it is no engine; started by those whom the shop lets open one."""

from playwright.sync_api import expect

from .hand import Hand


def at_practice(server, phone, name: str) -> Hand:
    hand = Hand(phone.new_page(), str(server))
    hand.logs_in(name, f"{name}-bench")
    hand.page.goto(f"{hand.base}/#/practice")
    return hand


def test_a_build_started_as_practice_says_so(embedded_server, new_phone):
    marek = at_practice(embedded_server, new_phone(), "marek")
    expect(marek.at("build-start")).to_be_enabled()
    marek.at("build-start").tap()
    expect(marek.page.get_by_role("heading", level=1)).to_have_text("Practice")
    expect(marek.at("build-note")).to_have_text("Practice")


def test_an_apprentice_is_told_whom_to_ask(embedded_server, new_phone):
    juno = at_practice(embedded_server, new_phone(), "juno")
    expect(juno.at("not-yours")).to_be_visible()
    expect(juno.at("build-start")).to_have_count(0)
