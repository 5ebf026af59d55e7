"""Puts the demo shop into the record, through the same door phones use. Doing it again changes nothing."""
from catalogue import library
from django.db import transaction

from record.models import Build
from record.services import ingest
from record.shape import read
from shop.models import Device, Person, Shop

from . import world


@transaction.atomic
def load() -> Shop:
    shop, _ = Shop.objects.get_or_create(slug=world.SHOP[0], defaults={"name": world.SHOP[1]})
    people = {slug: _person(shop, slug, name, role, password) for slug, name, role, password in world.PEOPLE}
    dev, label = world.BENCH_DEVICE
    bench, _ = Device.objects.get_or_create(dev=dev, defaults={"shop": shop, "label": label, "person": people["ines"]})
    things = [read(event) for event in events()]
    ingest(device=bench, person=people["ines"], things=things)
    for build in Build.objects.filter(shop=shop, key__in=[b["key"] for b in world.BUILDS]):
        build.people.add(*people.values())
    return shop


def events() -> list[dict]:
    """The same events every time, so a second load finds only duplicates."""
    drafts = [draft for build in world.BUILDS for draft in _of_build(build)]
    return [_event(n, build, type, body) for n, (build, type, body) in enumerate(drafts, start=1)]


def _of_build(build: dict):
    key = build["key"]
    procedure, revision = _procedure(build["wants"])
    compiled = library.load_all()[(procedure, revision)]
    yield key, "build.opened", {"name": build["name"], "procedure": procedure, "revision": revision,
                                "duty": build["duty"], "note": build["note"]}
    for limit in build["limits"]:
        if limit["limit"] in compiled["limits"]:
            yield key, "limit.set", limit | {"authority": "shop", "source": build["sheet"]}
    for kind, title, unit, sizes in build["parts"]:
        if kind in compiled["parts"]:
            yield from ((key, "part.added", part) for part in _parts(kind, title, unit, sizes))


def _parts(kind: str, title: str, unit: str, sizes: list[tuple[str, int]]):
    for size, count in sizes:
        for copy in range(1, count + 1):
            yield {"part": f"{kind}-{size.replace('.', '-')}-{copy}", "kind": kind,
                   "title": f"{title} {size} {unit}, no. {copy}", "size": {"text": size, "unit": unit}}


def _procedure(wanted: str) -> tuple[str, int]:
    """The first revision of the wanted procedure; the V8's where the catalogue has no such one yet."""
    there = sorted(library.load_all())
    return next((key for key in there if key[0] == wanted), ("pushrod-v8", 1))


def _event(n: int, build: str, type: str, body: dict) -> dict:
    return {"dev": world.BENCH_DEVICE[0], "n": n, "build": build, "type": type, "v": 1,
            "at": world.OPENED_AT + n * 1000, "seen": 0, "body": body}


def _person(shop: Shop, slug: str, name: str, role: str, password: str) -> Person:
    person, made = Person.objects.get_or_create(
        username=slug, defaults={"shop": shop, "slug": slug, "name": name, "role": role})
    if made:
        person.set_password(password)
        person.save()
    return person
