"""The restore drill, by the very commands: from each database into each, nothing lost, nothing half restored."""

import hashlib
import io
import json
import random
import shutil
import sqlite3
import zipfile
from contextlib import closing

import psycopg
import pytest

from record import backup
from tests.services import server as service
from tests.services.phone_door import PhoneDoor
from tests.services.processes import clean_env

BUILD = "b-sprint-boat"
TABLES = ("record_build", "record_build_people", "record_reading", "shop_person", "shop_device", "auth_permission", "django_content_type")
FLIPS = 150
READING = {"point": "main_bore", "station": "1", "text": "2.4505", "unit": "in"}


class Shop(service.Server):
    """Only its commands are used here, on a database of its own."""


def on(folder, database: str = "") -> Shop:
    folder.mkdir(exist_ok=True)
    return Shop.make(folder, {}, clean_env(HALFTHOU_DATA=str(folder), DATABASE_URL=database, HALFTHOU_JOBS="inline"), 1)


@pytest.fixture(scope="module")
def demo(demo_data, tmp_path_factory):
    """The demo shop on SQLite, and a backup of it."""
    folder = tmp_path_factory.mktemp("backed") / "data"
    shutil.copytree(demo_data, folder)
    shop = on(folder)
    said = shop.manage("backup", str(folder / "kept.zip"))
    assert "read back and whole" in said
    return shop


def counted(shop: Shop) -> dict:
    """Every stored event and stamp, and how many rows the other tables have."""
    url = shop.env["DATABASE_URL"]
    connection = psycopg.connect(url) if url else sqlite3.connect(shop.folder / "halfthou.sqlite3")
    with closing(connection):
        rows = connection.execute("SELECT id, build_id, seq, dev, n, place, who, role, carried, hash, seal, chain, link FROM record_event ORDER BY id")
        counts = {t: connection.execute(f"SELECT count(*) FROM {t}").fetchone()[0] for t in TABLES}
        return {"events": rows.fetchall()} | counts


def test_into_an_empty_sqlite(demo, tmp_path):
    fresh = on(tmp_path / "fresh")
    assert "put back and verified" in fresh.manage("restore", str(demo.folder / "kept.zip"))
    assert counted(fresh) == counted(demo)


@pytest.mark.services
def test_into_postgresql_and_back(demo, postgres, tmp_path):
    there = on(tmp_path / "there", postgres.new_database())
    there.manage("restore", str(demo.folder / "kept.zip"))
    assert counted(there) == counted(demo)
    with pytest.raises(RuntimeError, match="Add --replace"):
        there.manage("restore", str(demo.folder / "kept.zip"))
    assert "schema before_restore_" in there.manage("restore", "--replace", str(demo.folder / "kept.zip"))
    assert counted(there) == counted(demo)
    there.manage("backup", str(there.folder / "again.zip"))
    back = on(tmp_path / "back")
    back.manage("restore", str(there.folder / "again.zip"))
    assert counted(back) == counted(demo)


def test_what_was_there_is_moved_aside(demo, tmp_path):
    fresh = on(tmp_path / "fresh")
    fresh.manage("restore", str(demo.folder / "kept.zip"))
    with pytest.raises(RuntimeError, match="Add --replace"):
        fresh.manage("restore", str(demo.folder / "kept.zip"))
    said = fresh.manage("restore", "--replace", str(demo.folder / "kept.zip"))
    aside = said.split("is kept: ")[1].strip()
    assert sqlite3.connect(aside).execute("SELECT count(*) FROM record_event").fetchone()[0] > 0


def harmed(raw: bytes, harm: str) -> bytes | None:
    if harm == "flipped":
        with zipfile.ZipFile(io.BytesIO(raw)) as packed:
            at = packed.getinfo("tables/record_event.jsonl").header_offset + 2_000
        return raw[:at] + bytes([raw[at] ^ 1]) + raw[at + 1 :]
    newer = io.BytesIO()
    with zipfile.ZipFile(newer, "w") as packed:
        packed.writestr("manifest.json", '{"format": "halfthou-backup", "v": 99, "tables": {}}')
    return {"cut": raw[: len(raw) // 2], "other": b"not a backup", "empty": b"", "newer": newer.getvalue()}.get(harm)


@pytest.mark.parametrize("harm", ["cut", "flipped", "other", "empty", "absent", "newer"])
def test_a_harmed_file_is_refused_before_anything_is_touched(demo, tmp_path, harm):
    file, raw = tmp_path / "harmed.zip", harmed((demo.folder / "kept.zip").read_bytes(), harm)
    if raw is not None:
        file.write_bytes(raw)
    with pytest.raises(backup.Unfit, match="Take another copy|no file|newer version"):
        backup.read_manifest(file)


def test_whatever_bit_is_flipped_it_is_refused_or_makes_no_difference(demo, tmp_path):
    """Anywhere in the file: in the packed rows, in what the archive says of itself, in the table of what is in it."""
    pick, raw, file = random.Random(5), (demo.folder / "kept.zip").read_bytes(), tmp_path / "harmed.zip"
    whole, refused = backup.read_manifest(demo.folder / "kept.zip"), 0
    anywhere = [pick.randrange(len(raw)) for _ in range(FLIPS)]
    for at in [*anywhere, *(pick.randrange(len(raw) - 4_000, len(raw)) for _ in range(FLIPS))]:
        file.write_bytes(raw[:at] + bytes([raw[at] ^ 1 << pick.randrange(8)]) + raw[at + 1 :])
        try:
            assert backup.read_manifest(file) == whole, at
        except backup.Unfit as why:
            refused += 1
            assert "nothing was changed" in str(why)
    assert refused > FLIPS


def test_a_harmed_file_changes_nothing(demo, tmp_path):
    (tmp_path / "harmed.zip").write_bytes(harmed((demo.folder / "kept.zip").read_bytes(), "flipped"))
    before = counted(demo)
    with pytest.raises(RuntimeError, match="Take another copy"):
        demo.manage("restore", "--replace", str(tmp_path / "harmed.zip"))
    assert counted(demo) == before


def rewritten(file, to, change) -> None:
    """The backup with the rows of one table changed, whole by its own account."""
    with zipfile.ZipFile(file) as good, zipfile.ZipFile(to, "w") as bad:
        manifest = json.loads(good.read("manifest.json"))
        for name, table in manifest["tables"].items():
            rows = good.read(f"tables/{name}.jsonl")
            if name == "record_event":
                lines = change(rows.splitlines(keepends=True))
                rows = b"".join(lines)
                table |= {"rows": len(lines), "sha256": hashlib.sha256(rows).hexdigest()}
            bad.writestr(f"tables/{name}.jsonl", rows)
        bad.writestr("manifest.json", json.dumps(manifest))


def twice(lines: list[bytes]) -> list[bytes]:
    """Rows that the database refuses."""
    return [*lines, lines[0]]


def test_a_restore_that_fails_half_way_brings_back_what_was_there(demo, tmp_path):
    rewritten(demo.folder / "kept.zip", tmp_path / "twice.zip", twice)
    shop = on(tmp_path / "shop")
    shutil.copytree(demo.folder, shop.folder, dirs_exist_ok=True)
    before = counted(shop)
    with pytest.raises(RuntimeError):
        shop.manage("restore", "--replace", str(tmp_path / "twice.zip"))
    assert counted(shop) == before


@pytest.mark.services
def test_on_postgresql_too(demo, postgres, tmp_path):
    rewritten(demo.folder / "kept.zip", tmp_path / "twice.zip", twice)
    shop = on(tmp_path / "shop", postgres.new_database())
    shop.manage("restore", str(demo.folder / "kept.zip"))
    before = counted(shop)
    with pytest.raises(RuntimeError):
        shop.manage("restore", "--replace", str(tmp_path / "twice.zip"))
    assert counted(shop) == before


def test_where_nothing_was_nothing_is_left_or_kept(demo, tmp_path):
    rewritten(demo.folder / "kept.zip", tmp_path / "twice.zip", twice)
    shop = on(tmp_path / "shop")
    with pytest.raises(RuntimeError):
        shop.manage("restore", "--replace", str(tmp_path / "twice.zip"))
    assert list(shop.folder.glob("*.sqlite3")) == []
    assert "is kept" not in shop.manage("restore", "--replace", str(demo.folder / "kept.zip"))
    assert counted(shop) == counted(demo)


def test_rows_changed_in_the_file_are_refused(demo, tmp_path):
    """The archive is whole, and a table in it is not the one that was written."""
    with zipfile.ZipFile(demo.folder / "kept.zip") as good, zipfile.ZipFile(tmp_path / "changed.zip", "w") as bad:
        for name in good.namelist():
            bad.writestr(name, good.read(name).replace(b"marek", b"tomas"))
    with pytest.raises(backup.Unfit, match="changed since it was written"):
        backup.read_manifest(tmp_path / "changed.zip")


def test_a_record_that_was_harmed_before_its_backup_is_named_after_the_restore(demo, tmp_path):
    def other(lines: list[bytes]) -> list[bytes]:
        return [line.replace(b'"builder"', b'"owner"', 1) for line in lines]

    rewritten(demo.folder / "kept.zip", tmp_path / "harmed.zip", other)
    with pytest.raises(RuntimeError, match="not all of it is as it was stored"):
        on(tmp_path / "shop").manage("restore", str(tmp_path / "harmed.zip"))


def test_a_stale_restore_and_the_phones_lose_nothing(embedded_server):
    """Events acknowledged after the backup come back from the phones, also those of a phone that is gone, from one that had read them."""
    shop = embedded_server
    file = shop.folder / "early.zip"
    marek, ines = PhoneDoor(shop, "marek", "marek-bench"), PhoneDoor(shop, "ines", "ines-bench")
    marek.sync([marek.event(BUILD, "reading", READING)])
    shop.manage("backup", str(file))
    late = [marek.event(BUILD, "reading", READING | {"station": str(i)}) for i in range(2, 5)]
    marek.sync(late)
    held = ines.sync()["builds"][BUILD]["events"]
    shop.stop("app")
    shop.manage("restore", "--replace", str(file))
    shop.start("app")
    ines = PhoneDoor(shop, "ines", "ines-bench")  # marek's phone lies in the lake
    lost = [e for e in held if e["dev"] == marek.dev]
    said = ines.sync([{k: v for k, v in e.items() if k != "seq"} for e in lost])
    assert [v["verdict"] for v in said["verdicts"]] == ["duplicate"] + ["stored"] * 3
    back = {(e["dev"], e["n"]): (e["who"], e["role"], e["body"], e.get("carried")) for e in said["builds"][BUILD]["events"]}
    assert all(back[e["dev"], e["n"]] == (e["who"], e["role"], e["body"], None) for e in lost)
    shop.manage("verify")
