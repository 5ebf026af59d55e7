"""Who belongs to a shop."""
from .models import Person, Shop


def people(shop: Shop) -> dict[str, dict[str, str]]:
    rows = Person.objects.filter(shop=shop).order_by("slug")
    return {p.slug: {"name": p.name, "role": p.role} for p in rows}


def names(shop: Shop) -> dict[str, str]:
    return {slug: person["name"] for slug, person in people(shop).items()}
