"""Processes that really die: server and worker by SIGKILL in the middle of batches, Redis emptied, PostgreSQL restarted.

Phones go on as phones do: what got no verdict is sent again. At the end every event is stored once, and every review is done.
"""

import http.client
import random
import threading
import time
import urllib.error

import pytest

from tests.services.phone_door import PhoneDoor

BUILD = "b-sprint-boat"
PHONES, ROUNDS, BATCH = 2, 8, 5
AWAY = (urllib.error.URLError, ConnectionError, http.client.HTTPException, TimeoutError, RuntimeError, ValueError)


class Sender(threading.Thread):
    """A phone that records and sends until it is told to stop; it keeps what it has no verdict for."""

    def __init__(self, server):
        super().__init__(daemon=True)
        self.door, self.queue, self.done, self.ending, self.failures = PhoneDoor(server, "marek", "marek-bench"), [], {}, False, 0
        self.follow: dict[str, int] = {}

    def run(self) -> None:
        while not self.ending:
            if len(self.queue) < 10 * BATCH:
                self.queue += [self.reading() for _ in range(BATCH)]
            self.send()

    def reading(self) -> dict:
        body = {"point": "main_bore", "station": str(self.door.n % 5 + 1), "text": f"2.45{self.door.n % 90 + 10}", "unit": "in"}
        return self.door.event(BUILD, "reading", body)

    def send(self) -> None:
        try:
            answer = self.door.sync(self.queue, self.follow)
            self.follow = {key: build["head"] for key, build in answer["builds"].items() if not build["more"]}
            verdicts = answer["verdicts"]
        except AWAY:
            self.failures += 1
            time.sleep(0.05)
            return
        for event, verdict in zip(self.queue, verdicts):
            assert verdict["verdict"] in ("stored", "duplicate"), verdict
            self.done[event["n"]] = verdict["seq"]
        self.queue = self.queue[len(verdicts) :]

    def finish(self) -> None:
        self.ending = True
        self.join(60)
        end = time.monotonic() + 120  # real time on a machine that may be busy with other things
        while self.queue and time.monotonic() < end:
            self.send()
        assert not self.queue, f"{len(self.queue)} entries were not taken in two minutes"


def play(server, strikes) -> list[Sender]:
    """Phones send while one thing after another is killed and brought back."""
    phones = [Sender(server) for _ in range(PHONES)]
    for phone in phones:
        phone.start()
    pick = random.Random(3)
    for round_ in range(ROUNDS):
        time.sleep(pick.uniform(0.05, 0.4))
        strikes[round_ % len(strikes)]()
    for phone in phones:
        phone.finish()
    return phones


def all_there_once(server, phones: list[Sender]) -> None:
    reader = PhoneDoor(server, "tomasz", "tomasz-bench")
    events, after, more = [], 0, True
    while more:
        build = reader.sync(follow={BUILD: after})["builds"][BUILD]
        events, more = events + build["events"], build["more"]
        after = events[-1]["seq"]
    assert [e["seq"] for e in events] == list(range(1, build["head"] + 1))
    where = {(e["dev"], e["n"]): e["seq"] for e in events}
    assert len(where) == len(events)
    for phone in phones:
        assert {n: where[phone.door.dev, n] for n in phone.done} == phone.done
        assert len(phone.done) == phone.door.n
    server.manage("verify")


def reviewed_in_the_end(server) -> None:
    reader, end = PhoneDoor(server, "marek", "marek-bench"), time.monotonic() + 60
    while time.monotonic() < end:
        server.manage("review_sweep")
        build = reader.sync()["builds"][BUILD]
        if build["reviewed"] == build["head"]:
            return
        time.sleep(0.5)
    raise AssertionError(f"reviewed {build['reviewed']} of {build['head']}")


def test_the_server_on_sqlite_is_killed_in_mid_batch(embedded_server):
    def kill() -> None:
        embedded_server.kill("app")
        embedded_server.start("app")

    phones = play(embedded_server, [kill])
    assert sum(phone.failures for phone in phones) > 0
    all_there_once(embedded_server, phones)
    reviewed_in_the_end(embedded_server)


@pytest.mark.services
def test_the_full_form_loses_its_parts_one_by_one(full_form_server, postgres, redis_server):
    server = full_form_server

    def kill(name: str):
        def strike() -> None:
            server.kill(name)
            server.start(name)

        return strike

    def restart_postgres() -> None:
        postgres.restart()

    strikes = [kill("app"), kill("worker"), redis_server.flush, restart_postgres]
    if not hasattr(postgres, "restart"):
        strikes.pop()  # a database given from outside is not ours to restart
    phones = play(server, strikes)
    all_there_once(server, phones)
    release_dead_claims(server)
    reviewed_in_the_end(server)


def release_dead_claims(server) -> None:
    """A review whose worker was killed is taken over after two minutes; here it is made old at once."""
    import psycopg

    with psycopg.connect(server.env["DATABASE_URL"]) as connection:
        connection.execute("UPDATE record_build SET claimed = '2020-01-01' WHERE claimed IS NOT NULL")
