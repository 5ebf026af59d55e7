"""Putting a backup back. Law: what was there before is moved aside and comes back by itself when the restoring fails."""
import os
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime, UTC
from pathlib import Path

from django.core.management import call_command
from django.core.management.color import no_style
from django.db import connections

from shop.models import Shop, new_epoch

from . import backup


def restore(file: Path, *, replace: bool) -> str:
    """Where the old record is now, or empty. `Unfit` when the file or the database is not fit for it; nothing is changed then."""
    manifest = backup.read_manifest(file)
    if not replace and _has_record():
        raise backup.Unfit("There is a record in this database already. Add --replace to move it aside, or name an empty database.")
    with _empty_database() as aside:
        _to_schema_of(manifest)
        backup.load(file, manifest, "default")
        _count_on()
        call_command("migrate", verbosity=0, skip_checks=True)
        for shop in Shop.objects.all():
            shop.epoch = new_epoch()
            shop.save(update_fields=["epoch"])
    return aside


def _has_record() -> bool:
    connection = connections["default"]
    return "shop_shop" in connection.introspection.table_names() and Shop.objects.exists()


def _to_schema_of(manifest: dict) -> None:
    """The schema of the day of the backup; newer migrations then move its rows as they would have on that day."""
    last: dict[str, str] = {}
    for app, name in manifest["migrations"]:
        last[app] = max(name, last.get(app, ""))
    for app in sorted(last):
        call_command("migrate", app, last[app], verbosity=0, skip_checks=True)


def _count_on() -> None:
    """New rows get numbers after those restored."""
    connection = connections["default"]
    with connection.cursor() as cursor:
        for statement in connection.ops.sequence_reset_sql(no_style(), backup.models()):
            cursor.execute(statement)


@contextmanager
def _empty_database() -> Iterator[str]:
    stamp = datetime.now(UTC).strftime("%Y%m%d_%H%M%S")
    with (_new_file if connections["default"].vendor == "sqlite" else _new_schema)(stamp) as aside:
        yield aside


@contextmanager
def _new_file(stamp: str) -> Iterator[str]:
    connection = connections["default"]
    connection.close()
    here = Path(connection.settings_dict["NAME"])
    aside = here.with_name(f"{here.stem}.before-restore-{stamp}{here.suffix}")
    there = here.exists()
    if there:
        os.replace(here, aside)
    try:
        yield str(aside) if there else ""
    except BaseException:
        connection.close()
        here.unlink(missing_ok=True)
        if there:
            os.replace(aside, here)
        raise


@contextmanager
def _new_schema(stamp: str) -> Iterator[str]:
    connection = connections["default"]
    aside = f"before_restore_{stamp}"
    with connection.cursor() as cursor:
        cursor.execute(f"ALTER SCHEMA public RENAME TO {aside}")
        cursor.execute("CREATE SCHEMA public")
    try:
        yield f"schema {aside}"
    except BaseException:
        with connection.cursor() as cursor:
            cursor.execute("DROP SCHEMA public CASCADE")
            cursor.execute(f"ALTER SCHEMA {aside} RENAME TO public")
        raise
