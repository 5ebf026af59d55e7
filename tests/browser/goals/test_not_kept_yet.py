"""A verdict may be on the screen before its reading is on the disk, but until then nothing calls it kept."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from tests.browser.hand import Hand

from .walk import HELD

pytestmark = pytest.mark.browser
# While `window.disk` is "slow" a transaction is asked one thing after the other, so that it does not end; "fails": it is undone.
DISK = """(() => {
  const commit = IDBTransaction.prototype.commit;
  IDBTransaction.prototype.commit = function () {
    const some = () => this.objectStore(this.objectStoreNames[0]);
    const turn = () => {
      if (window.disk === "fails") this.abort();
      else if (window.disk === "slow") some().count().onsuccess = turn;
      else commit.call(this);
    };
    turn();
  };
})()"""


@pytest.fixture
def marek(bench_hand):
    """At a bore that is typed, whose verdict is foretold."""
    bench_hand.page.evaluate(DISK)
    bench_hand.opens("main_bores", f"{HELD}-360")
    bench_hand.at("station-2").tap()
    bench_hand.types("24504".removeprefix(bench_hand.held()))
    expect(bench_hand.page.locator(".verdict")).to_have_count(1)
    return bench_hand


def ticks(hand: Hand, disk: str) -> None:
    hand.page.evaluate("(disk) => { window.disk = disk; }", disk)
    hand.at("key-tick").tap()


def nothing_says_kept(hand: Hand) -> None:
    expect(hand.at("verdict")).to_have_count(0)
    expect(hand.at("next-button")).to_have_count(0)
    expect(hand.at("said")).to_be_empty()
    assert "Kept" not in hand.page.locator("body").inner_text()


def test_until_the_disk_has_it_the_verdict_says_that_it_is_not_kept(marek):
    ticks(marek, "slow")
    expect(marek.at("foretold")).to_be_visible()
    expect(marek.page.get_by_text("Not kept yet")).to_be_visible()
    for _ in range(5):
        marek.page.wait_for_timeout(100)
        nothing_says_kept(marek)
    marek.page.evaluate("() => { window.disk = ''; }")
    expect(marek.at("verdict")).to_be_visible()
    expect(marek.page.get_by_text("Not kept yet")).to_be_hidden()
    expect(marek.at("next-button")).to_be_visible()
    expect(marek.at("said")).not_to_be_empty()


def test_a_reading_that_was_not_kept_is_still_on_the_read_out(marek):
    typed = marek.held()
    ticks(marek, "slow")
    expect(marek.at("foretold")).to_be_visible()
    marek.page.get_by_role("button", name="Not kept yet").tap()  # a thumb in a hurry: it goes on only with what is kept
    marek.page.evaluate("() => { window.disk = 'fails'; }")
    expect(marek.page.get_by_text("could not keep")).to_be_visible()
    expect(marek.at("foretold")).to_have_count(0)
    nothing_says_kept(marek)
    assert marek.held() == typed
    ticks(marek, "well")
    expect(marek.at("verdict")).to_be_visible()
