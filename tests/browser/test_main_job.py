"""The main job, as its people do it: a short block on a phone with no network, sent later, seen from afar."""

from __future__ import annotations

import time

import pytest
from playwright.sync_api import expect

from .hand import Hand

JOURNALS = ["2.4480", "2.4481", "2.4480", "2.4479", "2.4480"]
BORES = ["2.4499", "2.4505", "2.4502", "2.4506", "2.4509"]  # 1.9, 2.4, 2.2, 2.7, 2.9 thou: main 1 is under


@pytest.fixture
def marek(embedded_server, new_phone):
    context = new_phone()
    hand = Hand(context.new_page(), str(embedded_server))
    hand.logs_in("marek", "marek-bench")
    hand.is_offline_safe()
    return hand


def test_a_short_block_with_the_server_gone(embedded_server, marek, new_phone):
    hand = marek
    hand.at("build-b-sprint-boat").tap()
    expect(hand.at("step-link-journals")).to_be_visible()
    embedded_server.stop()

    hand.goes_on()
    hand.reads_all(JOURNALS)
    hand.leaves("Shells into block and caps")
    hand.ticks_all()
    hand.leaves("Main caps on, for measuring")
    assert hand.pulls() == 30

    hand.leaves("Read the bearing bores")
    hand.reads_all(BORES)
    hand.kills_the_tab()
    hand.title("Read the bearing bores")

    hand.opens("crank_in")
    expect(hand.page.get_by_text("Waits for “Caps off again”.").first).to_be_visible()
    hand.opens("main_bores")
    expect(hand.at("offer-trial").first).to_contain_text("exchange the shells of 1 and 5")
    hand.at("offer-apply").first.tap()
    hand.opens("caps_for_measuring")
    assert hand.pulls() == 12, "the caps of 1 and 5, two bolts each, three passes"
    hand.opens("main_bores")
    hand.reads_all(["2.4504", "2.4504"])

    hand.opens("caps_off")
    hand.ticks_all()
    hand.leaves("Crank in")
    hand.ticks_all()
    hand.leaves("Caps 1 to 4 torqued")
    hand.pulls(3)
    hand.kills_the_tab()
    hand.title("Caps 1 to 4 torqued")
    expect(hand.at("torque-pull")).to_contain_text("4")
    assert hand.pulls() == 21, "none skipped, none twice"
    hand.leaves("Thrust seated")
    hand.ticks_all()
    hand.leaves("Cap 5 torqued, the last one")
    assert hand.pulls() == 6
    hand.leaves("Crank turns by hand")
    hand.ticks_all()
    hand.leaves("Crank end play")
    hand.reads_all(["7.0"])
    hand.opens("cam_in")
    hand.ticks_all()
    hand.leaves("Cam end play")
    hand.reads("41.0")
    expect(hand.at("verdict")).to_contain_text("Over")

    hand.opens("timing_set")
    hold = hand.at("hold")
    expect(hold).to_contain_text("Cam end play is over. Until it is in, “Timing set” waits.")
    expect(hold).to_contain_text("over by 31.0")
    expect(hold).to_contain_text("Tern Hollow race sheet 7")
    assert hand.page.locator('[data-testid^="confirm-"]').count() == 0, "nothing of the step can be ticked while it is held"
    hand.at("offer-apply").first.tap()
    hand.opens("cam_end_play")
    hand.reads("6.0")
    expect(hand.at("verdict")).to_contain_text("In")
    hand.opens("timing_set")
    hand.ticks_all()
    hand.leaves("Retainer on, three bolts")
    hand.ticks_all()
    assert hand.pulls() == 6

    embedded_server.start()
    hand.page.reload()
    expect(hand.at("send-state").first).to_contain_text("all sent", timeout=60_000)

    tomasz = Hand(new_phone(viewport={"width": 1100, "height": 800}, is_mobile=False, has_touch=True).new_page(), str(embedded_server))
    tomasz.logs_in("tomasz", "tomasz-bench")
    tomasz.page.goto(f"{embedded_server}/#/board")
    board = tomasz.at("board-b-sprint-boat")
    for count in ("5/5", "6/6", "4/4"):
        expect(board).to_contain_text(count, timeout=15_000)
    expect(board).to_contain_text("Marek")


def test_tomasz_sees_a_new_reading_within_five_seconds_of_its_acknowledgement(embedded_server, marek, new_phone):
    tomasz = Hand(new_phone(viewport={"width": 1100, "height": 800}, is_mobile=False, has_touch=True).new_page(), str(embedded_server))
    tomasz.logs_in("tomasz", "tomasz-bench")
    tomasz.page.goto(f"{embedded_server}/#/board")
    expect(tomasz.at("board-b-hill-climb")).to_be_visible()
    before = tomasz.at("board-b-hill-climb").inner_text()
    marek.page.goto(f"{embedded_server}/#/build/b-hill-climb")
    marek.goes_on()
    marek.reads_anything()
    expect(marek.at("send-state").first).to_contain_text("all sent", timeout=20_000)
    sent = time.monotonic()
    tomasz.page.wait_for_timeout(100)
    while tomasz.at("board-b-hill-climb").inner_text() == before and time.monotonic() - sent < 5:
        tomasz.page.wait_for_timeout(100)
    assert tomasz.at("board-b-hill-climb").inner_text() != before


def test_two_phones_that_read_the_same_spot_out_of_reach_are_asked_which_is_right(embedded_server, marek, new_phone):
    juno = Hand(new_phone().new_page(), str(embedded_server))
    juno.logs_in("juno", "juno-bench")
    juno.is_offline_safe()
    for hand in (marek, juno):
        hand.opens("journals")
        hand.title("Read the main journals")
    embedded_server.stop()
    for hand, text in ((marek, "2.4480"), (juno, "2.4482")):
        hand.at("station-3").tap()
        expect(hand.page.locator(".what")).to_contain_text("main 3")
        hand.reads(text)
    embedded_server.start()
    for hand in (marek, juno, marek):
        hand.page.reload()
        expect(hand.at("send-state").first).to_contain_text("all sent", timeout=60_000)
    marek.page.goto(f"{embedded_server}/#/build/b-sprint-boat")
    asked = marek.at("contrary").first
    expect(asked).to_contain_text("2.4480", timeout=20_000)
    expect(asked).to_contain_text("2.4482")
    asked.locator('[data-testid^="settle-"]').last.tap()
    expect(marek.at("contrary")).to_have_count(0)


def test_an_expired_login_never_stops_recording(embedded_server, marek):
    embedded_server.manage("shell", "-c", "from shop.models import DeviceToken; DeviceToken.objects.all().delete()")
    marek.page.goto(f"{embedded_server}/#/build/b-hill-climb")
    marek.goes_on()
    marek.reads_anything()
    expect(marek.at("send-state").first).to_contain_text("to send", timeout=20_000)
    unsent = marek.unsent()
    assert unsent > 0
    marek.kills_the_tab()
    expect(marek.at("send-state").first).to_contain_text(f"{unsent} to send", timeout=20_000)
