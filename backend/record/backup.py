"""The whole record in one file, from either database, and back into either.

Law: a backup is one moment of the record, and says of itself whether it is whole. Restoring never destroys what was there
before: it is moved aside.
"""
import base64
import hashlib
import json
import os
import sqlite3
import tempfile
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime, UTC
from pathlib import Path
from typing import Any

from django.apps import apps
from django.db import connections, transaction
from django.db.migrations.recorder import MigrationRecorder

FORMAT, VERSION = "halfthou-backup", 1
APPS = ("contenttypes", "auth", "shop", "record", "admin")
AT_ONCE = 500


# What reading a harmed archive may raise: there is no one error for it.
HARMED = (zipfile.BadZipFile, zlib.error, KeyError, ValueError, TypeError, AttributeError, EOFError, OSError, RuntimeError)


class Unfit(Exception):
    """A file that cannot be restored, in a sentence."""


def models() -> list[Any]:
    return [m for app in APPS for m in apps.get_app_config(app).get_models(include_auto_created=True) if m._meta.managed and not m._meta.proxy]


def write(file: Path) -> dict[str, int]:
    """Writes the backup; rows by table. The file appears under its name only when it is whole and on the disk."""
    part = file.with_name(file.name + ".part")
    file.parent.mkdir(parents=True, exist_ok=True)
    with _one_moment() as alias, os.fdopen(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as out:
        with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
            tables = {m._meta.db_table: _write_table(packed, m, alias) for m in models()}
            manifest = {"format": FORMAT, "v": VERSION, "made": datetime.now(UTC).isoformat(), "tables": tables,
                        "migrations": sorted(MigrationRecorder(connections[alias]).applied_migrations())}
            packed.writestr("manifest.json", json.dumps(manifest, indent=1))
        out.flush()
        os.fsync(out.fileno())
    os.replace(part, file)
    return {name: table["rows"] for name, table in tables.items()}


def _write_table(packed: zipfile.ZipFile, model: Any, alias: str) -> dict:
    fields, rows, sum_ = model._meta.concrete_fields, 0, hashlib.sha256()
    with packed.open(f"tables/{model._meta.db_table}.jsonl", "w", force_zip64=True) as out:
        query = model._base_manager.using(alias).order_by("pk").values_list(*[f.attname for f in fields])
        for row in query.iterator(chunk_size=AT_ONCE):
            line = (json.dumps([_packed(v) for v in row], ensure_ascii=False) + "\n").encode("utf-8", "surrogatepass")
            sum_.update(line)
            out.write(line)
            rows += 1
    return {"columns": [f.column for f in fields], "rows": rows, "sha256": sum_.hexdigest()}


def read_manifest(file: Path) -> dict:
    """What the file says of itself, after every table in it was found to be as it was written."""
    try:
        with zipfile.ZipFile(file) as packed:
            manifest = json.loads(packed.read("manifest.json"))
            if manifest.get("format") != FORMAT or manifest.get("v") != VERSION:
                raise Unfit(f"{file} is a backup of another kind or of a newer version. Update the server first.")
            for name, table in manifest["tables"].items():
                _check_table(packed, file, name, table)
    except FileNotFoundError:
        raise Unfit(f"There is no file {file}.") from None
    except HARMED as why:
        raise Unfit(f"{file} is not a whole backup ({why}). Take another copy; nothing was changed.") from None
    return manifest


def _check_table(packed: zipfile.ZipFile, file: Path, name: str, table: dict) -> None:
    sum_, rows = hashlib.sha256(), 0
    with packed.open(f"tables/{name}.jsonl") as lines:
        for line in lines:
            sum_.update(line)
            rows += 1
    if (rows, sum_.hexdigest()) != (table["rows"], table["sha256"]):
        raise Unfit(f"{file} has been changed since it was written: table {name}. Take another copy; nothing was changed.")


def load(file: Path, manifest: dict, alias: str) -> None:
    """Puts the rows into an empty database that has the schema of the backup's day."""
    connection = connections[alias]
    with zipfile.ZipFile(file) as packed, transaction.atomic(using=alias), connection.cursor() as cursor:
        for name in ("auth_permission", "django_content_type"):  # made by migrating; the backup has its own
            cursor.execute(f"DELETE FROM {name}")
        for name, table in manifest["tables"].items():
            columns = ", ".join(connection.ops.quote_name(c) for c in table["columns"])
            marks = ", ".join(["%s"] * len(table["columns"]))
            statement = f"INSERT INTO {connection.ops.quote_name(name)} ({columns}) VALUES ({marks})"
            for rows in _in_pieces(packed, name):
                cursor.executemany(statement, [[_unpacked(v, connection) for v in row] for row in rows])


def _in_pieces(packed: zipfile.ZipFile, name: str) -> Iterator[list]:
    rows: list = []
    with packed.open(f"tables/{name}.jsonl") as lines:
        for line in lines:
            rows.append(json.loads(line.decode("utf-8", "surrogatepass")))
            if len(rows) == AT_ONCE:
                yield rows
                rows = []
    if rows:
        yield rows


def _packed(value: object) -> object:
    if isinstance(value, datetime):
        return {"t": value.isoformat()}
    if isinstance(value, (bytes, memoryview)):
        return {"b": base64.b64encode(bytes(value)).decode()}
    return value


def _unpacked(value: Any, connection: Any) -> object:
    if not isinstance(value, dict):
        return value
    if "t" in value:
        return connection.ops.adapt_datetimefield_value(datetime.fromisoformat(value["t"]))
    return base64.b64decode(value["b"])


@contextmanager
def _one_moment() -> Iterator[str]:
    """A database alias that shows the record as it is now, whatever is written meanwhile; writers hardly wait."""
    connection = connections["default"]
    if connection.vendor == "postgresql":
        with transaction.atomic():
            connection.cursor().execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ")
            yield "default"
        return
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "copy.sqlite3"
        connection.ensure_connection()
        with sqlite3.connect(copy) as target:
            connection.connection.backup(target)
        connections.databases["moment"] = connections.databases["default"] | {"NAME": str(copy)}
        try:
            yield "moment"
        finally:
            connections["moment"].close()
            del connections.databases["moment"]
