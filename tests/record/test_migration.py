"""A record written by the first version comes through the migrations whole: heads that were printed still hold."""

import hashlib

import pytest
from django.db import connection
from django.db.migrations.executor import MigrationExecutor
from django.utils import timezone

from kernel.canon import canon
from record import guard
from record.models import Build, Event
from record.verify import flaws
from shop.models import Device, Shop
from tests.record.world import PASSWORD, Phone

BEFORE = [("record", "0003_guard"), ("shop", "0001_initial")]
DEVS = ("a" * 32, "b" * 32)


def moved_to(targets):
    executor = MigrationExecutor(connection)
    executor.loader.build_graph()
    return executor.migrate(targets).apps


def newest():
    return MigrationExecutor(connection).loader.graph.leaf_nodes()


@pytest.fixture
def first_version(transactional_db):
    guard.remove(connection)
    yield moved_to(BEFORE)
    moved_to(newest())
    guard.remove(connection)  # for the clearing after the test


def test_a_record_of_the_first_version(first_version):
    old = first_version
    shop = old.get_model("shop", "Shop").objects.create(slug="tern-hollow", name="Tern Hollow Engines")
    other = old.get_model("shop", "Shop").objects.create(slug="reed-bank", name="Reed Bank")
    person = old.get_model("shop", "Person").objects.create(username="marek", slug="marek", name="Marek", role="builder", shop=shop)
    devices = [old.get_model("shop", "Device").objects.create(shop=shop, dev=dev, label="") for dev in DEVS]
    build = old.get_model("record", "Build").objects.create(shop=shop, key="b-old", name="Old", procedure="pushrod-v8", revision=1, duty="race")
    head = ""
    for seq in range(1, 8):
        dev, n = DEVS[seq % 2], (seq + 1) // 2
        raw = canon({"dev": dev, "n": n, "build": "b-old", "type": "reading", "v": 1, "at": seq, "seen": 0, "body": {"text": str(seq)}}).encode()
        hash = hashlib.sha256(raw).hexdigest()
        head = hashlib.sha256((head + hash).encode()).hexdigest()
        old.get_model("record", "Event").objects.create(
            build=build, seq=seq, dev=dev, n=n, type="reading", v=1, at=seq, seen=0, who="marek", role="builder", person=person,
            raw=raw, hash=hash, received=timezone.now(),
        )  # fmt: skip
    build.head, build.head_hash = 7, head
    build.save()
    waiting = canon({"dev": DEVS[0], "n": 50, "build": "b-later", "type": "reading", "v": 1, "at": 1, "seen": 0, "body": {}}).encode()
    old.get_model("record", "Quarantine").objects.create(
        shop=shop, device=devices[0], person=person, kind="no_build", why="", event=f"{DEVS[0]}:50", raw=waiting,
        hash=hashlib.sha256(waiting).hexdigest(), received=timezone.now(),
    )  # fmt: skip

    moved_to(newest())
    assert list(flaws({"b-old": {7: head}})) == []
    assert Build.objects.get().head_hash == head
    assert sorted(Event.objects.values_list("dev", "place")) == sorted((DEVS[s % 2], (s + 1) // 2) for s in range(1, 8))
    assert Shop.objects.get(pk=shop.pk).mark_key != Shop.objects.get(pk=other.pk).mark_key
    assert [d.homeless for d in Device.objects.order_by("dev")] == [True, False]
    with pytest.raises(Exception, match="append-only"):
        Event.objects.update(who="somebody else")

    from shop.models import Person

    marek = Person.objects.get()
    marek.set_password(PASSWORD)
    marek.save()
    phone = Phone("marek")
    assert phone.verdicts(phone.event(build="b-old"), phone.opening(build="b-later")) == ["stored", "stored"]
    assert list(flaws({"b-old": {7: head}})) == []
    assert Event.objects.get(n=50).build.key == "b-later"
