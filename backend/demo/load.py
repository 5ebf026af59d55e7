"""Puts the demo shop into the record, through the same door phones use. Doing it again changes nothing."""
from catalogue import library
from django.core.management.base import CommandError
from django.db import transaction

from record.models import Build
from record.services import ingest
from record.shape import read
from shop.models import Device, Person, Shop

from . import clock, diary, world

TAKEN = f"A shop of your own has the demo's short name, {world.SHOP[0]}. The demo is not put into it."


@transaction.atomic
def load() -> Shop:
    shop, _ = Shop.objects.get_or_create(slug=world.SHOP[0], defaults={"name": world.SHOP[1], "demo": True})
    if not shop.demo:
        raise CommandError(TAKEN)
    times = world.times_begun()
    people = {slug: _person(shop, slug, name, role, password) for slug, name, role, password in world.PEOPLE}
    midnight = clock.today()
    # Told against today, so a build that is there already is left as it is: told again it would be another story.
    there = set(Build.objects.filter(shop=shop).values_list("key", flat=True))
    bench, label = world.BENCH_DEVICE
    _send(_device(shop, world.number_of(bench, times), label, people["ines"]), people["ines"], events(midnight, times), there)
    phones = {who: _device(shop, world.number_of(dev, times), label, people[who]) for who, (dev, label) in world.PHONES.items()}
    for told in [told for told in diary.files() if told["key"] not in there]:
        for who, batch in diary.batches(told, midnight, times):
            _send(phones[who], people[who], batch, there)
    for build in Build.objects.filter(shop=shop, key__in=[b["key"] for b in world.BUILDS] + diary.keys()):
        build.people.add(*people.values())
    return shop


def _send(device: Device, person: Person, batch: list[dict], there: set[str]) -> None:
    fresh = [read(event) for event in batch if event["build"] not in there]
    if fresh:
        ingest(device=device, person=person, things=fresh)


def events(midnight: int, times: int = 0) -> list[dict]:
    """Of the builds not begun yet."""
    opened = clock.moment(midnight, *world.OPENED)
    drafts = [draft for build in world.BUILDS for draft in _of_build(build)]
    dev = world.number_of(world.BENCH_DEVICE[0], times)
    return [_event(dev, n, opened, build, type, body) for n, (build, type, body) in enumerate(drafts, start=1)]


def _of_build(build: dict):
    key = build["key"]
    compiled = library.load_all()[build["procedure"], 1]
    yield key, "build.opened", {"name": build["name"], "procedure": build["procedure"], "revision": 1,
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


def _event(dev: str, n: int, opened: int, build: str, type: str, body: dict) -> dict:
    return {"dev": dev, "n": n, "build": build, "type": type, "v": 1,
            "at": opened + n * clock.SECOND, "seen": 0, "body": body}


def _device(shop: Shop, dev: str, label: str, person: Person) -> Device:
    return Device.objects.get_or_create(dev=dev, defaults={"shop": shop, "label": label, "person": person})[0]


def _person(shop: Shop, slug: str, name: str, role: str, password: str) -> Person:
    person, made = Person.objects.get_or_create(
        username=slug, defaults={"shop": shop, "slug": slug, "name": name, "role": role})
    if made:
        person.set_password(password)
        person.save()
    return person
