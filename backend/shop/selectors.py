"""Who belongs to a shop."""
from .models import Person, Shop


def people(shop: Shop) -> dict[str, dict[str, str]]:
    rows = Person.objects.filter(shop=shop).order_by("slug").values_list("slug", "name", "role")
    return {slug: {"name": name, "role": role} for slug, name, role in rows}


def names(shop: Shop) -> dict[str, str]:
    return {slug: person["name"] for slug, person in people(shop).items()}
