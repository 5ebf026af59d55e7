"""Marek's phone against a server of its own, on a fresh copy of the demo shop, for the benchmarks of the screen."""

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import sync_playwright

from tests.browser.hand import Hand
from tests.services import browsers
from tests.services.server import Server, embedded

RATE = 4  # a mid-range phone against a desk machine: common practice, no published source


@contextmanager
def marek() -> Iterator[tuple[Server, Hand]]:
    """Logged in and safe to take out of reach; what it keeps lies on the disk."""
    with tempfile.TemporaryDirectory(prefix="ht-bench-") as folder, sync_playwright() as playwright:
        server = embedded(Path(folder))
        server.start()
        context = browsers.launch_on(playwright, Path(folder) / "phone")
        try:
            hand = Hand(context.new_page(), str(server))
            hand.logs_in("marek", "marek-bench")
            hand.is_offline_safe()
            yield server, hand
        finally:
            context.close()
            server.stop()


def median(found: list[float]) -> float:
    return sorted(found)[len(found) // 2]


def at_most(found: list[float], share: float) -> float:
    """The reading that `share` of all readings do not exceed, by nearest rank."""
    return sorted(found)[max(0, -(-round(share * 100) * len(found) // 100) - 1)]
