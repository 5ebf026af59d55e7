"""The full form over real services: PostgreSQL, Redis, a worker and beat, started by their entry commands."""

import json
import time
import urllib.request
import uuid

import pytest

pytestmark = pytest.mark.services
BUILD = "b-sprint-boat"


class Caller:
    """A phone that speaks HTTP to a server of its own process."""

    def __init__(self, url: str):
        self.url, self.dev, self.n, self.token = url, uuid.uuid4().hex, 0, ""
        said = self.ask("/api/login", {"name": "marek", "password": "marek-bench", "dev": self.dev, "label": "Bench"})
        self.token = said["token"]

    def ask(self, path: str, data: dict | None = None) -> dict:
        headers = {"Content-Type": "application/json"} | ({"Authorization": f"Device {self.token}"} if self.token else {})
        body = None if data is None else json.dumps(data).encode()
        with urllib.request.urlopen(urllib.request.Request(self.url + path, body, headers), timeout=20) as answer:
            return json.load(answer)

    def read(self, text: str) -> int:
        """Pushes one reading; its position."""
        self.n += 1
        event = {
            "dev": self.dev,
            "n": self.n,
            "build": BUILD,
            "type": "reading",
            "v": 1,
            "at": 1,
            "seen": 0,
            "body": {"point": "main_journal", "station": "1", "text": text, "unit": "in"},
        }
        verdict = self.ask("/api/sync", {"dev": self.dev, "epoch": "", "events": [event], "follow": {}})["verdicts"][0]
        assert verdict["verdict"] == "stored"
        return verdict["seq"]

    def reviewed(self, seq: int, seconds: float) -> bool:
        """Whether the board shows a review of that position in time."""
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            if next(b for b in self.ask("/api/board")["builds"] if b["id"] == BUILD)["reviewed"] >= seq:
                return True
            time.sleep(0.1)
        return False


@pytest.fixture
def phone(full_form_server):
    return Caller(full_form_server.base_url)


def test_the_board_shows_a_reading_within_five_seconds(phone):
    assert phone.reviewed(phone.read("2.4480"), 20), "the worker has not come up"
    assert phone.reviewed(phone.read("2.4481"), 5)


def test_a_push_does_not_wait_for_a_broker_that_is_away(phone, full_form_server, redis_server):
    assert phone.reviewed(phone.read("2.4480"), 20)
    redis_server.process.stop()
    try:
        began = time.monotonic()
        seq = phone.read("2.4482")
        assert time.monotonic() - began < 10
    finally:
        redis_server.start()
    full_form_server.manage("review_sweep")
    assert phone.reviewed(seq, 20)


def test_messages_that_were_lost_are_found(phone, full_form_server, redis_server):
    full_form_server.kill("worker")
    seq = phone.read("2.4483")
    redis_server.flush()
    full_form_server.start("worker")
    full_form_server.manage("review_sweep")
    assert phone.reviewed(seq, 20)
