"""What to take care of is in sight before a step is begun, whatever room the keys leave for it."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from .hand import Hand

pytestmark = pytest.mark.browser

# Of the words of the caution, how much can be seen: what lies at each of its lines, and its bounds against the screen's.
HIDDEN = """() => [...document.querySelectorAll('[data-testid=care] .caution')].flatMap((caution) => {
  const words = caution.querySelector('.faint').previousSibling, range = document.createRange(); range.selectNodeContents(words);
  return [...range.getClientRects()].filter((line) => {
    const top = document.elementFromPoint(line.left + line.width / 2, line.top + line.height / 2);
    return line.bottom > innerHeight || !top || !caution.contains(top); }).map((line) => Math.round(line.top)); })"""


@pytest.mark.parametrize(
    ("size", "gloves", "over"),
    [((360, 740), False, False), ((412, 915), False, False), ((320, 640), False, True), ((375, 667), False, True), ((360, 740), True, True)],
    ids=str,
)
def test_it_leads_the_step_until_something_is_done(embedded_server, new_phone, size, gloves, over):
    marek = Hand(new_phone(viewport={"width": size[0], "height": size[1]}).new_page(), str(embedded_server))
    marek.logs_in("marek", "marek-bench")
    if gloves:
        marek.page.goto(f"{embedded_server}/#/settings")
        marek.at("set-big").tap()
    marek.opens("journals")
    expect(marek.at("care").locator(".caution")).to_be_visible()
    expect(marek.at("key-tick")).to_be_visible()
    assert marek.page.evaluate(HIDDEN) == [], "every line of it can be read"
    read = marek.at("care").locator("summary")
    assert read.is_visible() == over
    if over:
        read.tap()  # and the keys are there
    marek.reads("2.4480")
    expect(marek.at("care").locator(".caution")).to_have_count(1)
    expect(marek.at("key-tick")).to_be_visible()
    assert not read.is_visible(), "once something is done nothing lies over the keys any more"
    marek.reads("2.4481")
