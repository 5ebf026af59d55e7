"""The demo begun afresh: by its owner alone, never a real shop; what was recorded stays in the record, out of sight."""

import pytest
from django.core.management import CommandError, call_command

from demo import diary, world
from demo.load import load
from demo.reset import NotADemo, begin_afresh
from record.models import Build, Event, Quarantine
from record.verify import flaws
from shop.models import Device, Person, Role, Shop
from tests.record.world import Phone
from tests.record.world import shop as real_shop

pytestmark = pytest.mark.django_db

KEYS = sorted([build["key"] for build in world.BUILDS] + diary.keys())


def shorten(monkeypatch) -> None:
    files = diary.files()[:1]
    monkeypatch.setattr(diary, "files", lambda: files)


@pytest.fixture
def demo(db, monkeypatch):
    """The demo with one told build, so that it is quickly there."""
    shorten(monkeypatch)
    call_command("demo_load", verbosity=0)
    return Shop.objects.get(slug="tern-hollow")


def logged_in(name: str, phone: Phone | None = None) -> Phone:
    phone = phone or Phone()
    answer = phone.log_in(name, f"{name}-bench")
    assert answer.status_code == 200, answer.content
    return phone


def hashes(shop: Shop) -> list[str]:
    return sorted(Event.objects.filter(build__shop=shop).values_list("hash", flat=True))


def test_a_fresh_demo_without_what_was_recorded(demo):
    ines, marek = logged_in("ines"), logged_in("marek")
    marek.sync(marek.event(build="b-sprint-boat"), marek.event(build="b-sprint-boat"))
    builds, entries = Build.objects.filter(shop=demo).count(), Event.objects.filter(build__shop=demo).count()
    assert ines.get("/api/demo").json() == {"builds": builds, "entries": entries}
    assert ines.post("/api/demo", {}).json() == {"entries": entries}
    fresh = logged_in("marek").sync().json()["builds"]
    assert len(fresh) == builds and fresh["b-sprint-boat"]["head"] == 22
    assert not Event.objects.filter(build__shop=demo, build__key="b-sprint-boat", type="reading").exists()


def test_nothing_leaves_the_record_and_it_still_verifies(demo):
    marek = logged_in("marek")
    marek.sync(marek.event(build="b-sprint-boat"))
    before = hashes(demo)
    assert begin_afresh(demo) == len(before)
    old = Shop.objects.get(slug="tern-hollow-1")
    assert hashes(old) == before and not Person.objects.filter(shop=old).exists() and not Quarantine.objects.exists()
    assert list(flaws()) == []


def test_a_phone_with_the_old_demo_brings_nothing_back_and_is_told_what_to_do(demo):
    marek = logged_in("marek")
    marek.sync(marek.event(build="b-sprint-boat"))
    unsent = marek.event(build="b-sprint-boat")
    begin_afresh(demo)
    fresh = hashes(demo)
    assert marek.sync(unsent).status_code == 401
    refused = marek.log_in("marek", "marek-bench")
    assert refused.status_code == 400 and refused.json()["afresh"] is True and "begun afresh" in refused.json()["error"]
    assert "afresh" not in marek.log_in("marek", "wrong").json()
    assert hashes(demo) == fresh


def test_again_and_again_and_loading_in_between_changes_nothing(demo):
    for times in (1, 2):
        begin_afresh(demo)
        fresh = hashes(demo)
        load()
        assert hashes(demo) == fresh and world.times_begun() == times
    assert Device.objects.filter(shop=demo).count() == 1 + len(world.PHONES)


def test_another_generation_with_another_key(demo):
    epoch, key = demo.epoch, demo.mark_key
    begin_afresh(demo)
    demo.refresh_from_db()
    assert demo.epoch != epoch and demo.mark_key != key


@pytest.mark.parametrize("name", ["marek", "juno", "tomasz"])
def test_only_the_owner(demo, name):
    before, phone = hashes(demo), logged_in(name)
    assert phone.get("/api/demo").status_code == phone.post("/api/demo", {}).status_code == 403
    assert hashes(demo) == before


def test_other_shops_are_left_alone(demo):
    real_shop("reed-bank")
    phone = Phone("owner-reed-bank")
    phone.sync(phone.opening())
    begin_afresh(demo)
    assert phone.sync().json()["builds"]["b-trial"]["head"] == 1


def test_never_a_shop_that_people_work_in(db):
    """Not by the address, not by the service, and not by having the demo's name."""
    shop = real_shop("tern-hollow")
    phone = Phone("owner-tern-hollow")
    phone.sync(phone.opening())
    assert phone.post("/api/demo", {}).status_code == 404
    with pytest.raises(NotADemo):
        begin_afresh(shop)
    with pytest.raises(CommandError, match="own"):
        load()
    assert Event.objects.filter(build__shop=shop).count() == 1 and Shop.objects.count() == 1


def test_what_was_set_aside_cannot_be_begun_afresh(demo):
    begin_afresh(demo)
    old = Shop.objects.get(slug="tern-hollow-1")
    owner = Person.objects.filter(shop=demo, role=Role.OWNER).get()
    Person.objects.filter(pk=owner.pk).update(shop=old)
    with pytest.raises(NotADemo):
        begin_afresh(old)


def test_a_failure_leaves_everything_as_it_was(demo, monkeypatch):
    before = hashes(demo)
    monkeypatch.setattr("demo.reset.load", lambda: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        begin_afresh(demo)
    assert hashes(demo) == before and Shop.objects.count() == 1 and Device.objects.filter(shop=demo).exists()


def test_the_command_does_the_same_and_loads_where_there_is_none(db, monkeypatch, capsys):
    shorten(monkeypatch)
    call_command("demo_reset")
    first = Event.objects.count()
    call_command("demo_reset")
    assert f"{first} entries" in capsys.readouterr().out and Event.objects.count() == 2 * first
