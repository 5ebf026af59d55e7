"""The demo shop: loaded through the phones' own door, the same every time, reset alone."""

import pytest
from django.core.management import call_command

from demo import diary, world
from record.models import Build, Event
from shop.models import Shop
from tests.record.world import Phone

pytestmark = pytest.mark.django_db

NOT_BEGUN = [build["key"] for build in world.BUILDS]


@pytest.fixture
def demo(django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True):
        call_command("demo_load", verbosity=0)


def test_everyone_can_log_in_and_sees_every_build(demo):
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


def test_loading_twice_changes_nothing(demo):
    before = list(Event.objects.order_by("pk").values_list("hash", "seq"))
    call_command("demo_load", verbosity=0)
    assert list(Event.objects.order_by("pk").values_list("hash", "seq")) == before


def test_loading_says_who_can_log_in(db, capsys):
    call_command("demo_load")
    said = capsys.readouterr().out
    assert all(login in said and password in said for login, _, _, password in world.PEOPLE)


def test_reset_takes_the_demo_shop_alone(demo, reed):
    other = Phone("owner-reed-bank")
    other.sync(other.opening())
    epoch = Shop.objects.get(slug="tern-hollow").epoch
    phone = Phone()
    phone.log_in("marek", "marek-bench")
    phone.sync(phone.event(build="b-sprint-boat"))
    call_command("demo_reset", verbosity=0)
    assert Event.objects.filter(build__shop=reed).count() == 1
    assert Build.objects.get(key="b-sprint-boat").events.filter(type="reading").count() == 0
    assert Shop.objects.get(slug="tern-hollow").epoch != epoch and phone.sync().status_code == 401
