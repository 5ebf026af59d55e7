"""Every look at the screen may take a while: the machine may be busy with servers, other tests and a second browser."""

from __future__ import annotations

from playwright.sync_api import expect

expect.set_options(timeout=20_000)
