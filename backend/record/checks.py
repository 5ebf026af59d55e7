"""Says at every start when SQLite is too old for its faster journal."""
import sqlite3

from django.conf import settings
from django.core import checks

from config.databases import wal_is_safe


@checks.register
def sqlite_journal(app_configs, **_) -> list[checks.CheckMessage]:
    if "sqlite" not in settings.DATABASES["default"]["ENGINE"] or wal_is_safe(sqlite3.sqlite_version_info):
        return []
    return [checks.Info(
        f"SQLite {sqlite3.sqlite_version} may lose a committed page when its write-ahead log is reset, so the record "
        "uses the slower DELETE journal.",
        hint="Nothing to do. SQLite 3.51.3 or newer, or PostgreSQL, is faster.",
        id="record.I001",
    )]
