"""Push and pull: verdicts, stamps from the credentials, cursors, generations."""

import json
from datetime import timedelta

import pytest
from django.utils import timezone

from record.models import Build, Event, Quarantine
from shop.models import Device, DeviceToken, Person
from sync import answer as answering
from tests.record.world import BUILD, V8, Phone

pytestmark = pytest.mark.django_db


def test_push_and_pull(builder):
    said = builder.sync(builder.opening(), builder.event(), **{"Halfthou-Waiting": "3"}).json()
    assert said["verdicts"] == [{"n": 1, "verdict": "stored", "seq": 1}, {"n": 2, "verdict": "stored", "seq": 2}]
    build = said["builds"][BUILD]
    assert (build["name"], build["procedure"], build["revision"], build["head"], build["more"]) == ("Trial V8", "pushrod-v8", 1, 2, False)
    assert len(build["digest"]) == 64 and [e["seq"] for e in build["events"]] == [1, 2]
    assert said["people"]["builder"] == {"name": "Builder", "role": "builder"}
    assert said["shop"] == {"id": "tern-hollow", "name": "Tern Hollow"}
    device = Device.objects.get(dev=builder.dev)
    assert device.waiting == 1 and device.last_sync is not None


def test_who_comes_from_the_credentials(builder):
    liar = builder.opening() | {"who": "owner", "role": "owner", "seq": 99}
    event = builder.sync(liar).json()["builds"][BUILD]["events"][0]
    assert (event["who"], event["role"], event["seq"]) == ("builder", "builder", 1)


def test_two_people_share_a_phone(builder):
    marek = builder.token
    builder.log_in("owner-tern-hollow")
    ines, builder.token = builder.token, marek
    builder.sync(builder.opening())
    builder.token = ines
    events = builder.sync(builder.event()).json()["builds"][BUILD]["events"]
    assert [e["who"] for e in events] == ["builder", "owner"]


def test_the_same_bytes_twice_are_a_duplicate(builder):
    opening, event = builder.opening(), builder.event()
    reordered = json.loads(json.dumps(dict(reversed(event.items()))))
    assert builder.verdicts(opening, event, reordered) == ["stored", "stored", "duplicate"]
    assert builder.verdicts(opening, event) == ["duplicate", "duplicate"]
    assert Event.objects.count() == 2 and Quarantine.objects.count() == 0


def test_a_fork_opens_no_build(builder):
    """Neither one whose number is stored already, nor one that comes in the same batch as the event it forks."""
    reading = builder.event()
    assert builder.verdicts(builder.opening(), reading) == ["stored", "stored"]
    assert builder.verdicts(builder.opening(n=reading["n"], build="b-second")) == ["fork"]
    opening = builder.opening(build="b-third")
    assert builder.verdicts(opening, opening | {"build": "b-fourth"}) == ["stored", "fork"]
    assert set(Build.objects.values_list("key", flat=True)) == {BUILD, "b-third"}


def test_of_two_openings_of_one_build_the_first_names_it(builder):
    first, second = (builder.event("build.opened", V8 | {"name": name}) for name in ("First", "Second"))
    assert builder.verdicts(first, second, first | {"build": "b-other"}) == ["stored", "stored", "fork"]
    assert Build.objects.get().name == "First"


def test_other_bytes_under_a_stored_key_are_a_fork(builder):
    event = builder.event()
    builder.sync(builder.opening(), event)
    other = event | {"body": event["body"] | {"text": "2.4490"}}
    assert builder.verdicts(other, other) == ["fork", "fork"]
    assert json.loads(bytes(Event.objects.get(n=event["n"]).raw))["body"]["text"] == "2.4480"
    kept = Quarantine.objects.get()
    assert kept.kind == "fork" and json.loads(bytes(kept.raw))["body"]["text"] == "2.4490"


def test_cursor_gives_only_what_is_new(builder):
    builder.epoch = builder.sync(builder.opening(), builder.event(), builder.event()).json()["epoch"]
    assert [e["seq"] for e in builder.sync(follow={BUILD: 2}).json()["builds"][BUILD]["events"]] == [3]
    assert builder.sync(follow={BUILD: 3}).json()["builds"][BUILD]["events"] == []


def test_a_long_build_comes_in_pieces(builder, monkeypatch):
    monkeypatch.setattr(answering, "MOST_EVENTS", 3)
    builder.epoch = builder.sync(builder.opening(), *[builder.event() for _ in range(6)]).json()["epoch"]
    pieces = []
    for after in (0, 3, 6):
        build = builder.sync(follow={BUILD: after}).json()["builds"][BUILD]
        pieces.append(([e["seq"] for e in build["events"]], build["more"]))
    assert pieces == [([1, 2, 3], True), ([4, 5, 6], True), ([7], False)]


def test_a_second_phone_gets_everything(builder):
    builder.sync(builder.opening(), builder.event())
    second = Phone("owner-tern-hollow")
    assert [e["n"] for e in second.sync().json()["builds"][BUILD]["events"]] == [1, 2]


def test_another_generation_sends_from_the_start(builder):
    builder.sync(builder.opening(), builder.event())
    builder.epoch = "of-another-server"
    assert len(builder.sync(follow={BUILD: 2}).json()["builds"][BUILD]["events"]) == 2


def test_a_restored_backup_is_noticed_and_nothing_is_lost(builder, tern):
    events = [builder.opening(), builder.event(), builder.event()]
    builder.epoch = builder.sync(*events[:2]).json()["epoch"]
    # The third event was acknowledged, then the server went back to a copy from before it.
    said = builder.sync(follow={BUILD: 3}).json()
    assert said["epoch"] != builder.epoch and len(said["builds"][BUILD]["events"]) == 2
    builder.epoch = said["epoch"]
    assert builder.verdicts(*events) == ["duplicate", "duplicate", "stored"]
    assert builder.sync(follow={BUILD: 3}).json()["epoch"] == builder.epoch


def test_a_phone_with_a_new_database_must_log_in_again(builder):
    event = builder.opening()
    answer = builder.post("/api/sync", {"dev": "0" * 32, "epoch": "", "events": [event], "follow": {}})
    assert answer.status_code == 401 and "log in again" in answer.json()["error"]
    assert Event.objects.count() == 0


def test_apprentice_and_crew_chief_do_not_open_builds(tern):
    for role in ("apprentice", "crew_chief"):
        phone = Phone(f"{role}-tern-hollow")
        assert phone.verdicts(phone.opening(build=f"b-{role.replace('_', '-')}")) == ["quarantined"]
    assert Build.objects.count() == 0


def test_a_build_is_seen_by_those_it_was_given_to(builder, tern):
    builder.sync(builder.opening())
    apprentice = Phone("apprentice-tern-hollow")
    assert apprentice.sync().json()["builds"] == {}
    Build.objects.get().people.add(Person.objects.get(username="apprentice-tern-hollow"))
    assert list(apprentice.sync().json()["builds"]) == [BUILD]


def test_expired_login_keeps_the_queue_and_loses_nothing(builder):
    events = [builder.opening(), builder.event()]
    DeviceToken.objects.update(expires=timezone.now() - timedelta(days=1))
    assert builder.sync(*events).status_code == 401
    builder.log_in("builder-tern-hollow")
    assert builder.verdicts(*events) == ["stored", "stored"]


def test_a_busy_database_is_said_and_not_a_500(builder, monkeypatch):
    from django.db import OperationalError

    from record import services

    def busy(**_):
        raise OperationalError("database is locked")

    monkeypatch.setattr(services, "ingest", busy)
    answer = builder.sync(builder.opening())
    assert answer.status_code == 503 and "try again" in answer.json()["error"]


def test_nobody_must_wait_for_the_review(builder, monkeypatch, django_capture_on_commit_callbacks):
    from review import tasks

    def away(*_, **__):
        raise ConnectionError("no broker")

    monkeypatch.setattr(tasks.review_build, "delay", away)
    with django_capture_on_commit_callbacks(execute=True):
        assert builder.verdicts(builder.opening()) == ["stored"]
    assert Build.objects.get().dirty


def test_after_a_restore_every_phone_sends_again(builder):
    from django.core.management import call_command

    events = [builder.opening(), builder.event()]
    builder.epoch = builder.sync(*events).json()["epoch"]
    call_command("backup_restored", verbosity=0)
    said = builder.sync(follow={BUILD: 2}).json()
    assert said["epoch"] != builder.epoch and len(said["builds"][BUILD]["events"]) == 2
    assert builder.verdicts(*events) == ["duplicate", "duplicate"]
