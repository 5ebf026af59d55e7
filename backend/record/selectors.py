"""Reading the record. Every query starts from a person, so another shop's things cannot be reached."""
from django.db.models import QuerySet

from shop.models import Person, Role

from .models import Build, Event


def visible_builds(person: Person) -> QuerySet[Build]:
    """An owner sees all builds of the shop, the others those they were given."""
    builds = Build.objects.filter(shop=person.shop).order_by("key")
    return builds if person.role == Role.OWNER else builds.filter(people=person)


def events_after(build: Build, seq: int, most: int) -> list[dict]:
    rows = Event.objects.filter(build=build, seq__gt=seq, seq__lte=build.head).order_by("seq")[:most]
    return [row.wire() for row in rows]
