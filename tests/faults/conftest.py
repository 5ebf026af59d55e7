import pytest
from django.db import connection

from record import guard
from tests.services.bench_shop import one_procedure

from .phone_box import PhoneBox
from .shop_server import collecting_jobs


@pytest.fixture(scope="session")
def box():
    running = PhoneBox()
    yield running
    running.stop()


@pytest.fixture
def current(transactional_db):
    """The server of the running schedule, on a database that commits; jobs are queued for it."""
    from catalogue import library

    really = library.load_all
    one_procedure()
    guard.install(connection)
    holder: dict = {}
    with collecting_jobs(holder):
        yield holder
    guard.remove(connection)
    library.load_all = really
