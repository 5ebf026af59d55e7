"""The demo shop: loaded through the phones' own door, the same every time, reset alone."""

import pytest
from django.core.management import call_command

from demo import clock, diary, world
from record.models import Build, Event, Quarantine
from tests.record.world import Phone

from .told import written

pytestmark = pytest.mark.django_db

NOT_BEGUN = [build["key"] for build in world.BUILDS]


@pytest.fixture
def loaded(db):
    """The record of the demo, before anything of it was reviewed."""
    call_command("demo_load", verbosity=0)


@pytest.fixture
def demo(django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True):
        call_command("demo_load", verbosity=0)


def test_everyone_can_log_in_and_sees_every_build(loaded):
    for login, name, role, password in world.PEOPLE:
        phone = Phone()
        assert phone.log_in(login, password).json()["person"] == {"id": login, "name": name, "role": role}
        assert sorted(phone.sync().json()["builds"]) == sorted(NOT_BEGUN + diary.keys())


def test_the_builder_starts_at_the_start_of_what_is_not_begun(demo):
    phone = Phone()
    phone.log_in("marek", "marek-bench")
    builds = {b["id"]: b for b in phone.get("/api/board").json()["builds"]}
    for build in [builds[key] for key in NOT_BEGUN]:
        assert build["findings"] == [] and build["reviewed"] == build["head"] > 0
        assert all(p["done"] == 0 for p in build["phases"])
    assert not Event.objects.filter(build__key__in=NOT_BEGUN, type="reading").exists()
    sheet = phone.get("/api/builds/b-sprint-boat/sheet").json()
    assert sum(p["kind"] == "cam_shim" for p in sheet["parts"]) >= 5


def stored():
    return list(Event.objects.order_by("pk").values_list("build__key", "hash", "seq"))


def test_loading_twice_changes_nothing(loaded):
    before = stored()
    call_command("demo_load", verbosity=0)
    assert stored() == before


def test_loading_on_another_day_leaves_what_is_there_as_it_is(loaded, monkeypatch):
    before, day_after = stored(), clock.today() + clock.DAY
    monkeypatch.setattr(clock, "today", lambda: day_after)
    call_command("demo_load", verbosity=0)
    assert stored() == before and not Quarantine.objects.exists()


def test_a_told_build_that_came_to_the_demo_later_is_added_to_one_that_is_there(db, monkeypatch):
    all_files = diary.files()
    monkeypatch.setattr(diary, "files", lambda: all_files[:-1])
    call_command("demo_load", verbosity=0)
    before, day_after = stored(), clock.today() + clock.DAY
    monkeypatch.undo()
    monkeypatch.setattr(clock, "today", lambda: day_after)
    call_command("demo_load", verbosity=0)
    after = stored()
    assert after[: len(before)] == before and Build.objects.count() == len(NOT_BEGUN + diary.keys())
    assert not Quarantine.objects.exists()


def test_told_builds_are_stored_as_their_people_wrote_them(loaded):
    told = [event for file in diary.files() for _, event in written(file, clock.today())]
    kept = {event.id_text: event for event in Event.objects.filter(build__key__in=diary.keys())}
    assert set(kept) == {f"{event['dev']}:{event['n']}" for event in told} and not Quarantine.objects.exists()
    author = {dev: who for who, (dev, _) in world.PHONES.items()}
    assert all(event.who == author[event.dev] for event in kept.values())


def test_the_board_shows_the_crew_chief_what_holds_and_who_let_what_through(demo):
    phone = Phone()
    phone.log_in("tomasz", "tomasz-bench")
    builds = {b["id"]: b for b in phone.get("/api/board").json()["builds"]}
    assert builds["b-jet-sprint"]["holds"][0]["title"] == "Second ring gap"
    assert [c["asked_by"] for c in builds["b-jet-sprint"]["concessions"]] == ["Marek"]
    assert all(p["done"] == p["total"] for p in builds["b-practice-single"]["phases"])
    assert builds["b-hill-climb-race"]["working"]["who"] == "Juno"


def test_loading_says_who_can_log_in(db, capsys):
    call_command("demo_load")
    said = capsys.readouterr().out
    assert all(login in said and password in said for login, _, _, password in world.PEOPLE)
