"""The kill switch takes the app off the phone's shelf and leaves the record alone; nothing reloads by itself."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from .hand import Hand
from .test_nothing_lost import ROWS

pytestmark = pytest.mark.browser

HELD = """async () => ({workers: (await navigator.serviceWorker.getRegistrations()).length, caches: (await caches.keys()).length})"""
LOOK = """async () => { for (const held of await navigator.serviceWorker.getRegistrations()) await held.update().catch(() => {}); }"""


def test_it_gives_up_the_shell_and_keeps_the_log(embedded_server, new_phone):
    marek = Hand(new_phone().new_page(), str(embedded_server))
    marek.logs_in("marek", "marek-bench")
    marek.opens("journals")
    expect(marek.at("key-tick")).to_be_visible(timeout=20_000)
    marek.reads("2.4480")
    marek.page.evaluate("navigator.serviceWorker.ready")
    assert marek.page.evaluate(HELD)["workers"] == 1
    kept = len(marek.page.evaluate(ROWS))
    marek.at("station-2").tap()
    expect(marek.at("key-tick")).to_be_visible()
    marek.types("8")
    half = marek.held()

    embedded_server.stop("app")
    embedded_server.env["HALFTHOU_WORKER_OFF"] = "1"
    embedded_server.start("app")
    loads: list[str] = []
    marek.page.on("load", lambda page: loads.append(page.url))
    marek.page.evaluate(LOOK)
    marek.page.wait_for_timeout(1_500)
    assert marek.page.evaluate(HELD) == {"workers": 0, "caches": 0}
    assert loads == [], "the page was reloaded under the hand"
    assert half.endswith("8") and marek.held() == half, "the entry that was half typed is gone"
    assert len(marek.page.evaluate(ROWS)) >= kept

    marek.page.reload()
    expect(marek.at("key-tick").or_(marek.at("next-button")).first).to_be_visible(timeout=20_000)
    marek.page.wait_for_timeout(1_500)
    assert len(loads) == 1, "the page reloads again and again"
    assert len(marek.page.evaluate(ROWS)) >= kept
