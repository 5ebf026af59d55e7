"""A shop of two people and one procedure in this process's own database: what a benchmark of the record needs, and no more."""

import os


def start(*, prepare: bool) -> None:
    """Django on the database that the environment names. `prepare`: make the tables and the shop first."""
    os.environ["DJANGO_SETTINGS_MODULE"] = "config.settings"
    import django
    from django.core.management import call_command

    django.setup()
    one_procedure()
    if prepare:
        call_command("migrate", verbosity=0, skip_checks=True)
        _people()


def one_procedure() -> None:
    """The short block alone, so that nothing else has to be compiled first."""
    from catalogue import library

    compiled = library.compile_file(library.PROCEDURES / "pushrod-v8.yaml")
    library.load_all = lambda: {(compiled["procedure"], compiled["revision"]): compiled}


def _people() -> None:
    from shop.models import Person, Shop

    shop, made = Shop.objects.get_or_create(slug="tern-hollow", defaults={"name": "Tern Hollow Engines"})
    for slug, role in (("marek", "builder"), ("ines", "owner")) if made else ():
        person = Person(username=slug, shop=shop, slug=slug, name=slug.title(), role=role)
        person.set_password(f"{slug}-bench")
        person.save()
