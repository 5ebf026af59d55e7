"""Both forms of the application, started as they are started in earnest, take in a reading and review the build."""

import time
import urllib.request

import pytest

from tests.services.phone_door import PhoneDoor, call

BUILD = "b-sprint-boat"
READING = {"point": "main_bore", "station": "1", "text": "2.4505", "unit": "in"}


def reviewed(phone: PhoneDoor, seconds: float) -> dict:
    """The build once its review has caught up with its head."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        build = phone.sync()["builds"][BUILD]
        if build["reviewed"] >= build["head"] > 0:
            return build
        time.sleep(0.1)
    raise AssertionError(f"the review did not catch up: reviewed {build['reviewed']} of {build['head']}")


def takes_in_and_reviews(server) -> None:
    status, health = call(f"{server}/api/health")
    assert (status, health["ok"]) == (200, True)
    marek = PhoneDoor(server, "marek", "marek-bench")
    before = marek.sync()["builds"][BUILD]["head"]
    answer = marek.sync([marek.event(BUILD, "reading", READING, seen=before)])
    assert answer["verdicts"] == [{"n": 1, "verdict": "stored", "seq": before + 1}]
    build = reviewed(marek, 20)
    assert build["head"] == before + 1
    tomasz = PhoneDoor(server, "tomasz", "tomasz-bench")
    events = tomasz.sync()["builds"][BUILD]["events"]
    assert events[-1]["body"] == READING
    assert (events[-1]["who"], events[-1]["role"]) == ("marek", "builder")


def test_embedded_form(embedded_server):
    takes_in_and_reviews(embedded_server)


@pytest.mark.services
def test_full_form(full_form_server):
    assert call(f"{full_form_server}/api/health")[1]["database"] == "postgresql"
    takes_in_and_reviews(full_form_server)


@pytest.mark.services
def test_a_lost_message_is_swept_up(full_form_server):
    """The worker is killed and the broker forgets; the reading is acknowledged all the same and reviewed after the restart."""
    marek = PhoneDoor(full_form_server, "marek", "marek-bench")
    full_form_server.kill("worker")
    head = marek.sync()["builds"][BUILD]["head"]
    stored = marek.sync([marek.event(BUILD, "reading", READING | {"station": "2"}, seen=head)])
    assert stored["verdicts"][0]["verdict"] == "stored"
    full_form_server.start("worker")
    full_form_server.manage("review_sweep")
    assert reviewed(marek, 40)["head"] == head + 1


def test_the_page_and_its_worker_are_served(embedded_server):
    with urllib.request.urlopen(embedded_server.base_url + "/") as page:
        assert "/static/assets/" in page.read().decode(), "the front end was not built"
    with urllib.request.urlopen(embedded_server.base_url + "/serviceworker.js") as worker:
        assert "javascript" in worker.headers["Content-Type"]


def test_data_outlives_a_power_cut(embedded_server):
    juno = PhoneDoor(embedded_server, "juno", "juno-bench")
    juno.sync([juno.event(BUILD, "reading", READING | {"station": "3"})])
    embedded_server.kill("app")
    embedded_server.start("app")
    assert juno.dev in {e["dev"] for e in juno.sync()["builds"][BUILD]["events"]}
