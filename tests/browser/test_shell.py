"""The service worker: it holds the shell and nothing else, and a new version waits for a tap."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from .shell_server import ShellServer

pytestmark = pytest.mark.browser


@pytest.fixture
def shell(tmp_path):
    server = ShellServer(tmp_path)
    yield server
    server.stop()


@pytest.fixture
def page(shell, phone):
    page = phone.new_page()
    page.goto(shell.url)
    page.get_by_label("Name").fill("marek")
    page.get_by_label("Password").fill("anything")
    page.keyboard.press("Enter")
    expect(page.get_by_text("At the bench: Marek")).to_be_visible(timeout=20_000)
    page.wait_for_function("() => navigator.serviceWorker.controller !== null", timeout=20_000)
    return page


def test_the_shell_opens_with_the_server_gone_and_holds_no_answers(shell, page):
    held = page.evaluate(
        "async () => (await Promise.all((await caches.keys()).map(async (name) => (await (await caches.open(name)).keys()).map((r) => r.url)))).flat()"
    )
    assert held and not [url for url in held if "/api/" in url]
    assert any(url.endswith(".wasm") for url in held)
    shell.stop()
    page.reload()
    expect(page.get_by_text("At the bench: Marek")).to_be_visible(timeout=20_000)


def test_a_new_version_waits_for_a_tap_then_loads_once(shell, page):
    loads = []
    page.on("load", lambda: loads.append(1))
    shell.new_version("Halfthou, the next")
    page.evaluate("async () => { await (await navigator.serviceWorker.getRegistration()).update(); }")
    button = page.get_by_role("button", name="new version")
    expect(button).to_be_visible(timeout=20_000)
    page.reload()
    expect(page.get_by_text("At the bench: Marek")).to_be_visible(timeout=20_000)
    assert page.title() == "Halfthou", "a reload alone does not bring the new version in"
    loads.clear()
    expect(button).to_be_visible(timeout=20_000)
    button.tap()
    expect(page).to_have_title("Halfthou, the next", timeout=60_000)
    page.wait_for_timeout(500)
    assert len(loads) == 1


def test_a_new_version_leaves_a_half_typed_entry_alone(shell, page):
    """Installed and waiting, it does nothing by itself: no reload, and what was typed stands."""
    page.goto(f"{shell.url}/#/login")
    page.get_by_label("Name").fill("jun")
    loads = []
    page.on("load", lambda: loads.append(1))
    shell.new_version("Halfthou, the next")
    page.evaluate("async () => { await (await navigator.serviceWorker.getRegistration()).update(); }")
    page.wait_for_function("async () => (await navigator.serviceWorker.getRegistration()).waiting !== null", timeout=20_000)
    page.wait_for_timeout(1_500)
    assert loads == [] and page.get_by_label("Name").input_value() == "jun"
    page.reload()
    page.wait_for_timeout(1_500)
    assert len(loads) == 1 and page.title() == "Halfthou"
