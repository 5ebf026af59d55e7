"""Reading the record. Every query starts from a person, so another shop's things cannot be reached."""
from collections.abc import Sequence

from django.db.models import QuerySet

from shop.models import Device, Person, Role

from .chain import mark, quoted
from .models import Build, Event, Quarantine


def visible_builds(person: Person) -> QuerySet[Build]:
    """An owner sees all builds of the shop, the others those they were given."""
    builds = Build.objects.filter(shop=person.shop).order_by("key")
    return builds if person.role == Role.OWNER else builds.filter(people=person)


def put_aside(device: Device) -> int:
    """How many things that this phone sent could not join a build."""
    return Quarantine.objects.filter(device=device).count()


def events_after(build: Build, seq: int, most: int, key: str, held: Sequence[int] = ()) -> list[tuple[int, str]]:
    """Position and JSON text of each, as phones keep it: with the server's mark, by which any phone may bring it back after a restore.

    `key`: the shop's, that marks are made with. `held`: positions that need not be told, one after the other.
    """
    if seq >= build.head or seq + 1 in held and build.head in held:
        return []
    rows = Event.objects.filter(build=build, seq__gt=seq, seq__lte=build.head).order_by("seq")
    if held:
        rows = rows.exclude(seq__range=(held[0], held[-1]))
    # Plain values: a phone that was away asks for thousands, and a model object each costs more than all else.
    values = rows.values_list("raw", "seq", "dev", "n", "who", "role", "carried", "hash")[:most]
    return [(row[1], _told(key, *row)) for row in values]


def _told(key: str, raw: bytes, seq: int, dev: str, n: int, who: str, role: str, carried: str, hash: str) -> str:
    """The stored bytes as they are, and the stamps behind them: nothing is parsed to be written out again."""
    sign = mark(key, dev=dev, n=n, who=who, role=role, carried=carried, hash=hash)
    brought = f',"carried":{quoted(carried)}' if carried else ""
    return f'{bytes(raw).decode()[:-1]},"seq":{seq},"who":{quoted(who)},"role":{quoted(role)}{brought},"mark":"{sign}"}}'
