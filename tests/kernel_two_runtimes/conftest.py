import pytest

from .phone_python import PhonePython


@pytest.fixture(scope="module")
def phone():
    running = PhonePython()
    yield running
    running.stop()
