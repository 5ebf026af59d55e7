"""Chromium is killed by SIGKILL, every process of it at once, while readings are entered and sent, KILLS times over (4 when not set).

Each time it comes up again on the same storage. Whatever was shown as kept is there, at most the one entry under way is there
as well, and numbers have no gap; in the end the server has every entry once, and its record verifies.
"""

from __future__ import annotations

import os
import random
import signal
import threading
import time
from collections import Counter
from pathlib import Path

import pytest
from playwright.sync_api import Error, expect

from tests.services import browsers
from tests.services.phone_door import PhoneDoor

from .hand import Hand
from .test_nothing_lost import BUILD, ROWS, own_device

pytestmark = pytest.mark.browser
KILLS = int(os.environ.get("KILLS", "4"))
LONGEST_S = 2.5  # of entering, before the kill
HURRY = "digits => { for (const digit of digits) document.querySelector(`[data-testid=key-${digit}]`).click(); }"


class Phone:
    """One phone's storage, and the browser that runs on it now."""

    def __init__(self, playwright, profile: Path, server: str):
        self.playwright, self.profile, self.server, self.killed = playwright, profile, str(server), False
        self.shown: Counter[str] = Counter()

    def opens(self) -> Hand:
        self.killed = False
        self.context = browsers.launch_on(self.playwright, self.profile)
        self.hand = Hand(self.context.pages[0], self.server)
        return self.hand

    def kill(self) -> None:
        """The whole group at once: nobody is left to write anything more."""
        self.killed = True
        os.killpg(main_process(self.profile), signal.SIGKILL)

    def enters_until_killed(self, pick: random.Random) -> None:
        """The same spot is read again and again; the text of each reading that was shown as kept is noted."""
        expect(self.hand.at("station-1")).to_be_visible(timeout=60_000)
        timer = threading.Timer(pick.uniform(0, LONGEST_S), self.kill)
        timer.start()
        try:
            while True:
                text = f"2.44{pick.randint(70, 98)}"
                self.reads(text)
                self.shown[text] += 1
        except (Error, AssertionError):
            if not self.killed:
                raise
        finally:
            timer.join()
        try:
            self.context.close()
        except Error:
            pass  # it is gone

    def reads(self, text: str) -> None:
        hand = self.hand
        hand.at("station-1").tap()
        expect(hand.at("key-tick")).to_be_visible()
        held = hand.held() if hand.at("read-out").locator("i.cursor").count() else ""
        digits = text.replace(".", "")
        assert digits.startswith(held), f"{held} stands on the read-out"
        asked = hand.page.locator(".what").inner_text()
        hand.page.evaluate(HURRY, digits[len(held) :])
        hand.at("key-tick").tap()
        hand.sees_it_kept(asked)

    def own_rows(self) -> list[dict]:
        own = own_device(self.hand.page)
        return [row for row in self.hand.page.evaluate(ROWS) if row["dev"] == own]


def main_process(profile: Path) -> int:
    """The browser's own process: the one on this storage that is nobody's child of a kind. It leads its group."""
    wanted = f"--user-data-dir={profile}".encode()
    for each in Path("/proc").glob("[0-9]*/cmdline"):
        try:
            words = each.read_bytes().split(b"\0")
        except OSError:
            continue
        if wanted in words and not any(word.startswith(b"--type=") for word in words):
            pid = int(each.parent.name)
            if os.getpgid(pid) == pid:
                return pid
    raise AssertionError("no browser runs on this storage")


def check(phone: Phone, kills: int) -> None:
    rows = phone.own_rows()
    assert sorted(row["n"] for row in rows) == list(range(1, len(rows) + 1)), "numbers have a gap or a twin"
    there = Counter(row["text"] for row in rows if row["type"] == "reading")
    assert not phone.shown - there, f"shown as kept and not there after kill {kills}: {phone.shown - there}"
    assert there.total() - phone.shown.total() <= kills, "more is there than was entered"


def test_a_killed_browser_loses_nothing_it_showed(embedded_server, player, tmp_path):
    pick, phone, took = random.Random(200), Phone(player, tmp_path / "storage", embedded_server), []
    phone.opens().logs_in("marek", "marek-bench")
    for kill in range(1, KILLS + 1):
        began = time.monotonic()
        phone.hand.opens("journals")
        phone.enters_until_killed(pick)
        phone.opens().opens("journals")
        phone.hand.page.wait_for_selector("[data-testid=station-1]", timeout=60_000)
        check(phone, kill)
        took.append(time.monotonic() - began)
    assert phone.shown.total() > 0
    print(f"  {KILLS} kills, {phone.shown.total()} readings shown as kept, {sum(took) / len(took):.1f} s a kill")
    all_sent_once(phone, embedded_server)
    phone.context.close()


def all_sent_once(phone: Phone, server) -> None:
    expect(phone.hand.at("send-state").first).to_contain_text("all sent", timeout=60_000)
    mine = {row["n"]: row["text"] for row in phone.own_rows()}
    reader, events, more = PhoneDoor(server, "tomasz", "tomasz-bench"), [], True
    while more:
        build = reader.sync(follow={BUILD: events[-1]["seq"] if events else 0})["builds"][BUILD]
        events, more = events + build["events"], build["more"]
    own = own_device(phone.hand.page)
    there = [(e["n"], e["body"].get("text", "")) for e in events if e["dev"] == own]
    assert sorted(there) == sorted(mine.items()), "the server has other entries than the phone"
    assert "as they were stored" in server.manage("verify")
