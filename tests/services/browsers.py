"""Chromium for tests, driven through Playwright: the machine's own, or the one that Playwright fetched."""

import os
import shutil

NAMES = ("chromium", "chromium-browser", "google-chrome", "chrome")
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage"]  # fmt: skip
PHONE = {"viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True, "device_scale_factor": 2}


def program() -> str | None:
    """Path of a Chromium on this machine, or None to let Playwright use its own."""
    return os.environ.get("HALFTHOU_CHROMIUM") or next((p for n in NAMES if (p := shutil.which(n))), None)


def launch(playwright, **more):
    return playwright.chromium.launch(executable_path=program(), headless=True, args=FLAGS, **more)


def launch_on(playwright, profile):
    """A phone whose storage lies in this folder and outlives its browser, as a phone's does."""
    return playwright.chromium.launch_persistent_context(str(profile), executable_path=program(), headless=True, args=FLAGS, **PHONE)
