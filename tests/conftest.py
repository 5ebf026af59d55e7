"""Fixtures every suite may use: services, running servers in both forms, a browser and a phone.

Nothing here imports Django, so the kernel's tests start in a moment.
"""

import os

import pytest
from hypothesis import settings

# How long an example takes says nothing here: the machine may be busy with servers and a browser.
settings.register_profile("halfthou", deadline=None)
settings.load_profile("halfthou")

# Playwright's synchronous door keeps an event loop in this thread; the database is only touched from the same thread.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")


def pytest_configure():
    """Passwords made in this process are hashed quickly; servers started by fixtures hash them in earnest."""
    import sys

    if "django.conf" in sys.modules and sys.modules["django.conf"].settings.configured:
        sys.modules["django.conf"].settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


@pytest.fixture(scope="session")
def postgres():
    """A PostgreSQL server; `postgres.new_database()` gives the address of an empty database."""
    from tests.services import postgres as service

    server = service.start()
    yield server
    server.stop()


@pytest.fixture(scope="session")
def redis_server():
    """A Redis server; `.url`, `.flush()`, `.stop()`, `.start()`."""
    from tests.services import redis as service

    server = service.start()
    yield server
    server.stop()


@pytest.fixture(scope="session")
def demo_data(tmp_path_factory):
    """A data folder with the demo shop loaded, made once and copied for each server."""
    from tests.services import server

    return server.embedded(tmp_path_factory.mktemp("demo")).folder / "data"


@pytest.fixture(scope="module")
def embedded_server(tmp_path_factory, demo_data):
    """The application on SQLite with inline jobs and the demo shop, fresh for each test module."""
    from tests.services import server

    running = server.embedded(tmp_path_factory.mktemp("embedded"), demo_data)
    running.start()
    yield running
    running.stop()


@pytest.fixture(scope="module")
def full_form_server(tmp_path_factory, postgres, redis_server):
    """The application, a Celery worker and beat on PostgreSQL and Redis with the demo shop, fresh for each test module."""
    from tests.services import server

    redis_server.flush()
    running = server.full_form(tmp_path_factory.mktemp("full"), postgres.new_database(), redis_server.url)
    yield running
    running.stop()


@pytest.fixture(scope="session")
def player():
    """Playwright itself: there may be only one in a process."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        yield playwright


@pytest.fixture(scope="session")
def browser(player):
    """One Chromium for the session."""
    from tests.services import browsers

    running = browsers.launch(player)
    yield running
    running.close()


@pytest.fixture
def new_phone(browser):
    """Makes phones: each call is a browser context of its own, 360 x 740 and touched; all are closed after the test."""
    from tests.services import browsers

    contexts = []

    def make(**more):
        contexts.append(browser.new_context(**(browsers.PHONE | more)))
        return contexts[-1]

    yield make
    for context in contexts:
        context.close()


@pytest.fixture
def phone(new_phone):
    """One phone: a touched browser context of 360 x 740."""
    return new_phone()
