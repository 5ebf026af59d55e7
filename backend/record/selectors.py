"""Reading the record. Every query starts from a person, so another shop's things cannot be reached."""
from django.db.models import QuerySet

from shop.models import Person, Role

from .chain import mark
from .models import Build, Event, wire


def visible_builds(person: Person) -> QuerySet[Build]:
    """An owner sees all builds of the shop, the others those they were given."""
    builds = Build.objects.filter(shop=person.shop).select_related("shop").order_by("key")
    return builds if person.role == Role.OWNER else builds.filter(people=person)


def events_after(build: Build, seq: int, most: int) -> list[dict]:
    """As phones keep them: each with the server's mark, by which any phone may bring it back after a restore."""
    rows = Event.objects.filter(build=build, seq__gt=seq, seq__lte=build.head).order_by("seq")
    # Plain values: a phone that was away asks for thousands, and a model object each costs more than all else.
    return [_told(build.shop.mark_key, *row) for row in rows.values_list("raw", "seq", "dev", "n", "who", "role", "carried", "hash")[:most]]


def _told(key: str, raw: bytes, seq: int, dev: str, n: int, who: str, role: str, carried: str, hash: str) -> dict:
    sign = mark(key, dev=dev, n=n, who=who, role=role, carried=carried, hash=hash)
    return wire(raw, seq, who, role, carried) | {"mark": sign}
