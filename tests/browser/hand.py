"""A builder's thumb on the phone: it taps what the screen offers, and nothing else."""

from __future__ import annotations

from playwright.sync_api import Page, expect


class Hand:
    def __init__(self, page: Page, base_url: str):
        self.page, self.base, self.size = page, base_url, page.viewport_size
        page.set_default_timeout(15_000)

    def at(self, testid: str):
        return self.page.get_by_test_id(testid)

    def takes_a_phone(self, width: int) -> None:
        """The same record on a screen of another width: what is shown is laid out anew."""
        self.size = {"width": width, "height": 740}
        self.page.set_viewport_size(self.size)

    def takes_a_new_tab(self) -> None:
        self.page = self.page.context.new_page()
        self.page.set_default_timeout(15_000)
        self.page.set_viewport_size(self.size)

    def logs_in(self, name: str, password: str, tap: bool = True) -> None:
        self.page.goto(self.base)
        self.page.get_by_label("Name").fill(name)
        self.page.get_by_label("Password").fill(password)
        self.at("login-go").tap() if tap else self.at("login-go").click()
        expect(self.page.get_by_test_id("build-b-sprint-boat")).to_be_visible(timeout=20_000)

    def is_offline_safe(self) -> None:
        """Waits until the shell, the builds and their procedures are on the phone."""
        self.page.evaluate("navigator.serviceWorker.ready.then(() => true)")
        if not self.page.evaluate("!!navigator.serviceWorker.controller"):
            self.page.reload()
        expect(self.page.get_by_text("Reading the record")).to_have_count(0, timeout=20_000)
        expect(self.at("send-state").first).not_to_contain_text("Not offline-safe")

    def kills_the_tab(self) -> None:
        """The tab is gone without a word; a new one opens the app where the person was."""
        self.page.close(run_before_unload=False)
        self.takes_a_new_tab()
        self.page.goto(self.base)
        expect(self.page.get_by_role("heading", level=1)).to_be_visible(timeout=20_000)

    def opens(self, step: str, build: str = "b-sprint-boat") -> None:
        self.page.goto(f"{self.base}/#/build/{build}/step/{step}")

    def title(self, text: str) -> None:
        expect(self.page.get_by_role("heading", level=1)).to_have_text(text)

    def ticks_all(self) -> None:
        """Every item of the step's list, from the top, until none is left."""
        open_ = self.page.locator('[data-testid^="confirm-"][aria-pressed="false"]')
        expect(open_.first).to_be_visible()
        while open_.count():
            box = open_.first
            name = box.get_attribute("data-testid") or ""
            box.tap()
            expect(self.page.locator(f'[data-testid="{name}"][aria-pressed="false"]')).to_have_count(0)

    def asked_to_pull(self) -> str:
        """What the torque plan asks for now, pass and bolt; empty when it asks for nothing."""
        return self.page.evaluate("""() => {
          const pull = document.querySelector('[data-testid="torque-pull"]');
          return pull ? (document.querySelector('.pass')?.innerText ?? '') + '|' + pull.innerText : '';
        }""")

    def pulls(self, times: int | None = None) -> int:
        """Pulls what the torque plan asks for, `times` times or until it asks for no more."""
        expect(self.at("torque-pull")).to_be_visible()
        count = 0
        while (said := self.asked_to_pull()) and count != times:
            self.at("torque-pull").tap()
            count += 1
            self.waits_until(lambda said=said: self.asked_to_pull() != said)
        return count

    def waits_until(self, true, seconds: float = 15) -> None:
        for _ in range(int(seconds * 50)):
            if true():
                return
            self.page.wait_for_timeout(20)
        raise AssertionError("the screen did not move on")

    def types(self, digits: str) -> None:
        """Digits on the phone's own keypad; what is held already is not typed again."""
        for digit in digits:
            self.at(f"key-{digit}").tap()

    def held(self) -> str:
        """The digits that stand on the read-out already."""
        return "".join(self.at("read-out").locator("i.held, i.typed").all_inner_texts())

    def reads(self, text: str) -> None:
        """One reading, typed as a builder would: the held digits stand, the rest is typed, then the tick."""
        expect(self.at("key-tick")).to_be_visible()
        digits = text.replace(".", "")
        if self.at("read-out").locator("i.cursor").count():
            while not digits.startswith(self.held()):
                self.at("key-undo").tap()
            digits = digits[len(self.held()) :]
        self.types(digits)
        asked = self.page.locator(".what").inner_text()
        self.at("key-tick").tap()
        self.sees_it_kept(asked)

    def sees_it_kept(self, asked: str) -> None:
        """The screen has moved on from what it asked: to a verdict, a question, the next entry or the end of the step."""
        moved = self.at("verdict").or_(self.at("ask")).or_(self.at("next-button")).or_(self.page.locator(".what").filter(has_not_text=asked))
        expect(moved.first).to_be_visible(timeout=15_000)

    def reads_all(self, texts: list[str]) -> None:
        """One reading after the other; after a verdict on to the next."""
        for i, text in enumerate(texts):
            self.reads(text)
            expect(self.at("key-tick").or_(self.at("next-button")).first).to_be_visible()
            if i + 1 < len(texts) and self.at("verdict").count():
                self.goes_on()

    def comes_to_a_reading(self) -> None:
        """Chooses and ticks whatever the step asks before its first reading."""
        offered = self.page.locator('[data-testid^="option-"]')
        ticks = self.page.locator('[data-testid^="confirm-"]')
        expect(self.at("key-tick").or_(offered.first).or_(ticks.first).first).to_be_visible()
        while offered.count():
            asked = self.page.locator("h2").first.inner_text()
            offered.first.tap()
            self.waits_until(lambda asked=asked: self.page.locator("h2").first.inner_text() != asked)
        if ticks.count():
            self.ticks_all()
        expect(self.at("key-tick")).to_be_visible()

    def reads_anything(self) -> None:
        """A reading of the right form; where the app asks whether it can be right, it is kept as it is."""
        self.comes_to_a_reading()
        asked = self.page.locator(".what").inner_text()
        cells = self.at("read-out").locator("i.gap, i.cursor").count()
        self.types("3" * max(1, cells))
        self.at("key-tick").tap()
        self.sees_it_kept(asked)
        if self.at("ask").count():
            self.at("ask-keep").tap()
            self.sees_it_kept(asked)

    def unsent(self) -> int:
        """How many entries the phone says it has to send, once that stands still."""
        said = ""
        while said != (said := self.at("send-state").first.inner_text()) or "to send" not in said:
            self.page.wait_for_timeout(500)
        return int(said.split(" to send")[0].split()[-1])

    def leaves(self, title: str) -> None:
        """On to the next step, which is the one named; at a verdict the same tap puts it aside."""
        self.goes_on()
        self.title(title)

    def goes_on(self) -> None:
        button = self.at("next-button").first
        expect(button).to_be_visible()
        button.tap()
