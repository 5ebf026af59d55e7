"""Somebody who has a keyboard, or a gauge and a foot switch that type like one, and never touches the glass."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping

from catalogue.units import factor
from playwright.sync_api import expect

from tests.browser.hand import Hand

# What the screen asks for now. `mark` differs whenever something has happened.
ASKS = """() => {
  const seen = (el) => el.offsetParent !== null && getComputedStyle(el).visibility === "visible";
  const q = (id) => [...document.querySelectorAll(`[data-testid="${id}"]`)].find(seen);
  const all = (css) => [...document.querySelectorAll(css)].filter(seen);
  const here = document.activeElement, style = getComputedStyle(here);
  const ring = here.matches(":focus-visible") && style.outlineStyle === "solid" && parseFloat(style.outlineWidth) >= 3;
  const out = { ready: here.hasAttribute("data-next"), ring, where: here.dataset.testid || here.tagName, trouble: document.querySelector('[role=alert]')?.innerText ?? "" };
  const open = all('[data-testid^="confirm-"][aria-pressed="false"]');
  const tell = (kind, more = {}, mark = JSON.stringify(more)) => ({ ...out, kind, ...more, mark: [location.hash, kind, open.length, mark].join("|") });
  if (q("ask")) return tell("asked", { says: q("ask").innerText });
  if (q("verdict")) return tell("verdict", { state: q("verdict").dataset.state, says: q("verdict").innerText });
  if (q("key-tick")) {
    const read = q("key-tick").closest(".reading"), cells = [...read.querySelectorAll('[data-testid="read-out"] i')];
    const point = cells.findIndex((c) => c.className.includes("point"));
    return tell("reading", { spot: read.dataset.spot, unit: read.querySelector(".unit").innerText, whole: point < 0 ? cells.length : point,
      decimals: point < 0 ? 0 : cells.length - point - 1, left: cells.some((c) => c.className.includes("cursor")) }, read.dataset.spot);
  }
  if (all('[data-testid^="option-"]').length) return tell("choice", { spot: q("choices")?.dataset.spot, options: all('[data-testid^="option-"]').map((o) => o.dataset.testid.slice(7)) });
  if (open.length) return tell("list");
  if (q("torque-pull")) return tell("torque", { pass: document.querySelector(".pass").innerText, bolt: q("torque-pull").innerText });
  if (q("hold")) return tell("hold", { says: q("hold").innerText });
  if (q("next-button")) return tell("next");
  return tell(document.querySelector("h1") ? "nothing" : "loading");
}"""
OPTIONAL = "() => [...document.querySelectorAll('[data-testid^=\"optional-\"]')].map((b) => b.dataset.testid.slice(9))"
UNITS = {"ft·lb": "lbf.ft", "lbf·ft": "lbf.ft", "N·m": "N.m", "cc": "cm3", "cm³": "cm3", "°": "deg"}


class Keyed:
    """Works one step after the other with keys alone; `readings` gives number and unit for a spot, `choices` the option."""

    def __init__(self, hand: Hand, readings: Mapping[str, str], choices: Mapping[str, str]):
        self.hand, self.page, self.readings, self.choices = hand, hand.page, readings, choices
        self.pressed: dict[str, int] = {}
        self.astray: list[str] = []  # where the next thing to do had no focus, or no ring around it
        self.done = 0
        self.measured: set[str] = set()  # parts whose size was read, though no step insists on it

    def press(self, key: str) -> None:
        name = "digit" if key.isdigit() else key
        self.pressed[name] = self.pressed.get(name, 0) + 1
        self.page.keyboard.press(key)

    def asks(self) -> dict:
        return self.page.evaluate(ASKS)

    def moved_from(self, mark: str, ends: Callable[[], bool] = lambda: False) -> dict:
        """What the screen asks for once it is not what it was, or once the build has ended."""
        for _ in range(1000):
            now = self.asks()
            if ends() or (now["mark"] != mark and now["kind"] not in ("nothing", "loading")):
                return now
            self.page.wait_for_timeout(20)
        raise AssertionError(f"the screen did not move on from {mark}: {now}")

    def works_to(self, ends: Callable[[], bool]) -> None:
        """Whatever is asked for, until the build is at its end."""
        now = self.moved_from("")
        while not ends():
            self.looks(now)
            size = None if now["kind"] in ("verdict", "asked", "hold") or now.get("spot") in self.measured else self.size()
            if size:
                self.goes_to(size)
            else:
                getattr(self, now["kind"])(now)
            self.done += 1
            now = self.moved_from(now["mark"], ends)

    def looks(self, now: dict) -> None:
        """Where the hand expects it: the focus on what comes next, a ring around it. A choice is never made by Enter alone."""
        if self.done == 0 or now["kind"] == "choice":
            return
        for _ in range(20):
            if now["ready"] and now["ring"]:
                return
            self.page.wait_for_timeout(20)
            now = self.asks()
        self.astray.append(f"{now['mark'][:80]}: {now['where']}")

    def asked(self, now: dict) -> None:
        raise AssertionError(f"asked about a sensible reading: {now}")

    hold = asked

    def verdict(self, now: dict) -> None:
        assert now["state"] == "in", now
        self.press("Enter")

    def list(self, now: dict) -> None:
        self.press("Enter")

    torque = next = list

    def size(self) -> str | None:
        """A part of this step whose size is known and not read yet, though the step does not insist on it."""
        return next((spot for spot in self.page.evaluate(OPTIONAL) if spot in self.readings and spot not in self.measured), None)

    def goes_to(self, size: str) -> None:
        """By way of "More about this step"."""
        self.measured.add(size)
        tabs_to(self.press, self.page, "about-more")
        self.press("Enter")
        tabs_to(self.press, self.page, f"optional-{size}")
        self.press("Enter")

    def choice(self, now: dict) -> None:
        self.types(str(now["options"].index(self.choices[now["spot"]]) + 1))
        self.press("Enter")

    def figure(self, now: dict) -> str:
        """The reading in the unit and with the places that the screen has."""
        number, unit = self.readings[now["spot"]].split(" ", 1)
        shown = UNITS.get(now["unit"], now["unit"])
        if unit != shown:
            number = f"{float(number) * factor(unit) / factor(shown):.{now['decimals']}f}"
        whole, _, part = number.partition(".")
        part = part[: now["decimals"]] + part[now["decimals"] :].rstrip("0")
        assert len(part) <= now["decimals"], (number, now)
        return f"{whole.zfill(now['whole'] if now['left'] else 1)}.{part.ljust(now['decimals'], '0')}"

    def reading(self, now: dict) -> None:
        digits = self.figure(now).replace(".", "")
        if now["left"]:
            while not digits.startswith(self.hand.held()):
                self.press("Backspace")
            digits = digits[len(self.hand.held()) :]
        self.types(digits if now["left"] else digits.lstrip("0") or "0")
        self.press("Enter")

    def types(self, digits: str) -> None:
        for digit in digits:
            self.press(digit)
            self.page.wait_for_timeout(45)  # no hand is quicker than a gauge


CODES = {"Enter": (13, "\r"), ".": (190, "."), "-": (189, "-"), "+": (187, "+")}


class Wedge(Keyed):
    """A gauge that sends its reading in one go, and a foot switch that sends Enter: no other key there is."""

    def __init__(self, *more):
        super().__init__(*more)
        self.door = self.page.context.new_cdp_session(self.page)

    def sends(self, text: str, gap: float = 0.008) -> None:
        """Real keys at a gauge's pace, Enter and all. They carry their own time, so that a busy machine does not slow them."""
        at = time.time()
        for key in [*text, "Enter"]:
            code, typed = CODES.get(key) or (ord(key), key)
            what = {"key": key, "windowsVirtualKeyCode": code, "timestamp": at}
            self.door.send("Input.dispatchKeyEvent", what | {"type": "keyDown", "text": typed})
            self.door.send("Input.dispatchKeyEvent", what | {"type": "keyUp"})
            at += gap

    def reading(self, now: dict) -> None:
        self.sends(self.figure(now))
        self.pressed["burst"] = self.pressed.get("burst", 0) + 1
        # A gauge is held still for a while before its button is pressed again.
        self.page.wait_for_timeout(60)


def touches(page) -> None:
    """From here on every touch and every move of a mouse is counted, on every page of this tab."""
    count = "addEventListener('pointerdown', () => sessionStorage.setItem('touched', Number(sessionStorage.getItem('touched') || 0) + 1), true)"
    page.evaluate(count)
    page.add_init_script(count)


def touched(page) -> int:
    return int(page.evaluate("sessionStorage.getItem('touched') || 0"))


def tabs_to(press: Callable[[str], None], page, testid: str, most: int = 60) -> None:
    """On with Tab until the control has the focus, as the hand would find it."""
    expect(page.get_by_test_id(testid).first).to_be_visible()
    for _ in range(most):
        if page.evaluate("(id) => (document.activeElement?.dataset.testid ?? '') === id", testid):
            return
        press("Tab")
    raise AssertionError(f"“{testid}” cannot be reached with Tab")
