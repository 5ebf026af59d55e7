"""A builder's thumb on the phone: it taps what the screen offers, and nothing else."""
from __future__ import annotations

from playwright.sync_api import Page, expect


class Hand:
    def __init__(self, page: Page, base_url: str):
        self.page, self.base = page, base_url

    def at(self, testid: str):
        return self.page.get_by_test_id(testid)

    def logs_in(self, name: str, password: str) -> None:
        self.page.goto(self.base)
        self.page.get_by_label("Name").fill(name)
        self.page.get_by_label("Password").fill(password)
        self.at("login-go").tap()
        expect(self.page.get_by_test_id("build-b-sprint-boat")).to_be_visible(timeout=20_000)

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

    def pulls(self, times: int | None = None) -> int:
        """Pulls what the torque plan asks for, `times` times or until it asks for no more."""
        pull = self.at("torque-pull")
        count = 0
        while times is None or count < times:
            if count == 0:
                expect(pull).to_be_visible()
            if not pull.is_visible():
                break
            said = pull.inner_text() + self.page.locator(".pass").inner_text()
            pull.tap()
            count += 1
            self.page.wait_for_timeout(20)
            for _ in range(200):
                if not pull.is_visible() or pull.inner_text() + self.page.locator(".pass").inner_text() != said:
                    break
                self.page.wait_for_timeout(20)
        return count

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
            digits = digits[len(self.held()):]
        self.types(digits)
        self.at("key-tick").tap()

    def goes_on(self) -> None:
        button = self.at("next-button").first
        expect(button).to_be_visible()
        button.tap()
