"""Which SQLite may be trusted with its faster journal, and that commits are written through."""

import pytest
from django.db import connection

from config.databases import from_url, journal_mode, wal_is_safe


@pytest.mark.parametrize(
    ("version", "safe"),
    [
        ((3, 40, 1), False),
        ((3, 44, 5), False),
        ((3, 44, 6), True),
        ((3, 45, 0), False),
        ((3, 50, 6), False),
        ((3, 50, 7), True),
        ((3, 51, 2), False),
        ((3, 51, 3), True),
        ((3, 52, 0), True),
        ((4, 0, 0), True),
    ],
)
def test_versions(version, safe):
    assert wal_is_safe(version) is safe


@pytest.mark.django_db
def test_sqlite_writes_through():
    if connection.vendor != "sqlite":
        pytest.skip("PostgreSQL writes through by default")
    with connection.cursor() as cursor:
        assert cursor.execute("PRAGMA synchronous").fetchone()[0] == 2
        assert cursor.execute("PRAGMA journal_mode").fetchone()[0].upper() == journal_mode()


def test_addresses_of_databases(tmp_path):
    assert from_url("", tmp_path)["NAME"] == str(tmp_path / "halfthou.sqlite3")
    assert from_url("sqlite:////srv/a.sqlite3", tmp_path)["NAME"] == "/srv/a.sqlite3"
    entry = from_url("postgres://ht:p%40ss@db:5433/shop?sslmode=require", tmp_path)
    assert (entry["USER"], entry["PASSWORD"], entry["HOST"], entry["PORT"], entry["NAME"]) == ("ht", "p@ss", "db", "5433", "shop")
    assert entry["OPTIONS"] == {"server_side_binding": True, "prepare_threshold": 3, "sslmode": "require"}
    assert from_url("postgresql:///shop?host=/tmp/pg&port=6000", tmp_path)["HOST"] == "/tmp/pg"
    with pytest.raises(ValueError, match="mysql"):
        from_url("mysql://x/y", tmp_path)
