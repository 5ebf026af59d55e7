"""The demo shop reset by its owner on the phone; another phone that still holds the old one brings nothing back."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from .hand import Hand

pytestmark = pytest.mark.browser

COUNT = "from record.models import Event; print(Event.objects.filter(build__shop__slug='tern-hollow').count())"


def entries(server) -> int:
    return int(server.manage("shell", "-v", "0", "-c", COUNT).split()[-1])


def test_the_owner_resets_it_and_an_old_phone_begins_afresh(embedded_server, new_phone):
    fresh = entries(embedded_server)
    marek = Hand(new_phone().new_page(), str(embedded_server))
    marek.logs_in("marek", "marek-bench")
    marek.opens("journals")
    marek.reads("2.4480")
    expect(marek.at("send-state").first).to_contain_text("all sent")
    embedded_server.stop()
    marek.page.goto(f"{embedded_server}/#/build/b-hill-climb")
    marek.goes_on()
    marek.reads_anything()
    marek.page.close()  # in the pocket before the server is back, with entries unsent
    embedded_server.start()

    ines = Hand(new_phone().new_page(), str(embedded_server))
    ines.logs_in("ines", "ines-bench")
    ines.page.goto(f"{embedded_server}/#/settings")
    ines.at("demo-reset").tap()
    expect(ines.at("demo")).to_contain_text(f"{fresh + 1} entries")
    ines.at("demo-go").tap()
    expect(ines.at("login-go")).to_be_visible(timeout=120_000)
    assert entries(embedded_server) == fresh
    ines.logs_in("ines", "ines-bench")

    marek.page = ines.page.context.browser.contexts[0].new_page()
    marek.page.goto(f"{embedded_server}/#/today")
    marek.page.get_by_role("link", name="Log in to send").tap()
    marek.page.get_by_label("Name").fill("marek")
    marek.page.get_by_label("Password").fill("marek-bench")
    marek.at("login-go").tap()
    expect(marek.page.get_by_text("begun afresh")).to_be_visible()
    expect(marek.page.get_by_text("of the old demo that this phone has not sent")).to_be_visible()
    marek.at("begin-afresh").tap()
    expect(marek.at("begin-afresh")).to_have_count(0)
    marek.logs_in("marek", "marek-bench")
    marek.opens("journals")
    expect(marek.at("key-tick")).to_be_visible()
    expect(marek.page.locator(".plan .done")).to_have_count(0)
    marek.page.wait_for_timeout(2_000)
    assert entries(embedded_server) == fresh, "nothing of the old demo came back"


def test_only_the_owner_of_a_demo_is_offered_it(embedded_server, new_phone):
    marek = Hand(new_phone().new_page(), str(embedded_server))
    marek.logs_in("marek", "marek-bench")
    marek.page.goto(f"{embedded_server}/#/settings")
    expect(marek.at("logout")).to_be_visible()
    expect(marek.at("demo")).to_have_count(0)
    embedded_server.manage("shell", "-c", "from shop.models import Shop; Shop.objects.update(demo=False)")
    ines = Hand(new_phone().new_page(), str(embedded_server))
    ines.logs_in("ines", "ines-bench")
    with ines.page.expect_response("**/api/demo") as answer:
        ines.page.goto(f"{embedded_server}/#/settings")
    assert answer.value.status == 404
    expect(ines.at("logout")).to_be_visible()
    expect(ines.at("demo")).to_have_count(0)
