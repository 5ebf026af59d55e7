"""DATABASE_URL to Django's setting, and the journal mode SQLite may be trusted with.

Law: an acknowledged event is on the disk. SQLite runs with synchronous FULL; write-ahead logging is used only where the
library is free of the fault by which a reset log could lose a committed page (fixed in 3.51.3, and in 3.50.7 and 3.44.6).
"""
import sqlite3
from pathlib import Path
from urllib.parse import parse_qsl, unquote, urlsplit

BUSY_SECONDS = 20


def wal_is_safe(version: tuple[int, int, int]) -> bool:
    """Whether this SQLite has the fix for the reset of its write-ahead log."""
    if version >= (3, 51, 3):
        return True
    return version[:2] in {(3, 50), (3, 44)} and version[2] >= {50: 7, 44: 6}[version[1]]


def journal_mode() -> str:
    return "WAL" if wal_is_safe(sqlite3.sqlite_version_info) else "DELETE"


def from_url(url: str, folder: Path) -> dict:
    """Django's DATABASES entry. ValueError, in a sentence, for an address of an unknown kind."""
    parts = urlsplit(url)
    if not url or parts.scheme == "sqlite":
        return _sqlite(Path(unquote(parts.path)[1:]) if parts.path.strip("/") else folder / "halfthou.sqlite3")
    if parts.scheme in {"postgres", "postgresql"}:
        return _postgres(parts)
    raise ValueError(f"DATABASE_URL starts with “{parts.scheme}”. Use sqlite:///file or postgres://user@host/name.")


def _sqlite(file: Path) -> dict:
    return {
        "ENGINE": "django.db.backends.sqlite3",
        "NAME": str(file),
        "OPTIONS": {
            "transaction_mode": "IMMEDIATE",
            "timeout": BUSY_SECONDS,
            "init_command": f"PRAGMA journal_mode={journal_mode()};PRAGMA synchronous=FULL;",
        },
        # Tests run several threads against one file; a database in memory cannot be shared that way.
        "TEST": {"NAME": str(file.parent / f"test-{file.name}")},
    }


def _postgres(parts) -> dict:
    query = dict(parse_qsl(parts.query))
    entry = {
        "ENGINE": "django.db.backends.postgresql",
        "NAME": unquote(parts.path.lstrip("/")),
        "USER": unquote(parts.username or ""),
        "PASSWORD": unquote(parts.password or ""),
        # A socket's folder may come as ?host=/path, as libpq itself allows.
        "HOST": query.pop("host", None) or unquote(parts.hostname or ""),
        "PORT": query.pop("port", None) or str(parts.port or ""),
        "CONN_MAX_AGE": 60,
        "CONN_HEALTH_CHECKS": True,
    }
    # What is asked over and over is planned once a connection: a fifth of a short sync.
    return entry | {"OPTIONS": {"server_side_binding": True, "prepare_threshold": 3} | query}
