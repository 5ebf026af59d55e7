"""Fixtures of the server's suites. Import them in a suite's conftest."""

import pytest
from django.core.cache import cache
from django.db import connection

from record import guard

from .world import Phone, shop

__all__ = ["fresh_counts", "guarded_threads", "tern", "reed", "owner", "builder"]


@pytest.fixture(autouse=True)
def fresh_counts(settings):
    """Wrong passwords of one test do not count in the next; hashing is quick, since nothing here is secret."""
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
    cache.clear()


@pytest.fixture
def guarded_threads(transactional_db):
    """A database that commits, guard up during the test and down for the clearing after it."""
    guard.install(connection)
    yield
    guard.remove(connection)


@pytest.fixture
def tern(db):
    return shop("tern-hollow")


@pytest.fixture
def reed(db):
    """The other shop, whose things must not be seen."""
    return shop("reed-bank")


@pytest.fixture
def owner(tern):
    return Phone("owner-tern-hollow")


@pytest.fixture
def builder(tern):
    return Phone("builder-tern-hollow")
