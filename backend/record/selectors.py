"""Reading the record. Every query starts from a person, so another shop's things cannot be reached."""
from django.db.models import QuerySet

from shop.models import Person, Role

from .chain import mark
from .models import Build, Event


def visible_builds(person: Person) -> QuerySet[Build]:
    """An owner sees all builds of the shop, the others those they were given."""
    builds = Build.objects.filter(shop=person.shop).select_related("shop").order_by("key")
    return builds if person.role == Role.OWNER else builds.filter(people=person)


def events_after(build: Build, seq: int, most: int) -> list[dict]:
    """As phones keep them: each with the server's mark, by which any phone may bring it back after a restore."""
    rows = Event.objects.filter(build=build, seq__gt=seq, seq__lte=build.head).order_by("seq")[:most]
    return [row.wire() | {"mark": _mark(build.shop.mark_key, row)} for row in rows]


def _mark(key: str, row: Event) -> str:
    return mark(key, dev=row.dev, n=row.n, who=row.who, role=row.role, carried=row.carried, hash=row.hash)
