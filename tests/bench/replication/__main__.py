"""The sync against a general-purpose document replication pair: the same entries, moved over HTTP on this machine, in turn.

The pair is fetched into build/replication and used by nothing else. Ours runs as in earnest: gunicorn, PostgreSQL with its
commits on the disk, a push of 500 at a time; reviews wait in Redis. The pair keeps its documents in its own store with its
own defaults, which do not wait for the disk.
"""

import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.bench.report import BUILD, report, row
from tests.kernel_two_runtimes.phone_python import node
from tests.services import postgres, redis
from tests.services import server as service
from tests.services.phone_door import PhoneDoor
from tests.services.processes import clean_env, free_port

HERE, PLACE = Path(__file__).parent, BUILD / "replication"
ENTRIES, BATCH = 5_000, 500


def entries(door: PhoneDoor | None, many: int, build: str) -> list[dict]:
    body = {"point": "main_bore", "station": "3", "text": "2.4507", "unit": "in"}
    n0 = door.n if door else 0
    made = [{"dev": door.dev if door else "a" * 32, "n": n0 + i + 1, "build": build, "type": "reading", "v": 1, "at": 1_764_068_400_000 + i, "seen": 0,
             "body": body | {"station": str(i % 5 + 1)}} for i in range(many)]  # fmt: skip
    if door:
        door.n += many
    return made


def pair() -> dict:
    PLACE.mkdir(parents=True, exist_ok=True)
    for name in ("package.json", "pair.mjs"):
        shutil.copy(HERE / name, PLACE / name)
    if not (PLACE / "node_modules" / "pouchdb").is_dir():
        subprocess.run(["npm", "install", "--no-audit", "--no-fund", "--loglevel", "error"], cwd=PLACE, check=True)
    with tempfile.TemporaryDirectory() as folder:
        lines = Path(folder) / "docs.jsonl"
        lines.write_text("".join(json.dumps(e | {"_id": f"{e['dev']}:{e['n']}"}) + "\n" for e in entries(None, ENTRIES, "b-bench")))
        done = subprocess.run([str(node()), "pair.mjs", str(lines), folder], cwd=PLACE, stdout=subprocess.PIPE, text=True, check=True)
    return json.loads(done.stdout.splitlines()[-1])


def ours(folder: Path) -> dict:
    database, broker = postgres.start(), redis.start()
    port = free_port()
    env = clean_env(HALFTHOU_DATA=str(folder), DATABASE_URL=database.new_database(), REDIS_URL=broker.url, HALFTHOU_JOBS="celery", ALLOWED_HOSTS="*")
    command = [sys.executable, "-m", "gunicorn", "config.wsgi:application", "--bind", f"127.0.0.1:{port}", "--threads", "4", "--timeout", "120"]
    shop = service.Server.make(folder, {"app": command}, env, port)
    try:
        code = "from tests.services import bench_shop as b; b.start(prepare=True)"
        subprocess.run([sys.executable, "-c", code], env=env | {"PYTHONPATH": os.pathsep.join(sys.path)}, check=True)
        shop.start()
        return pushed(PhoneDoor(shop, "marek", "marek-bench"))
    finally:
        shop.stop()
        broker.stop()
        database.stop()


def pushed(door: PhoneDoor) -> dict:
    opened = {"name": "Bench", "procedure": "pushrod-v8", "revision": 1, "duty": "race", "note": ""}
    follow = heads(door.sync([door.event("b-bench", "build.opened", opened)]))
    batches = [entries(door, BATCH, "b-bench") for _ in range(ENTRIES // BATCH)]
    follow = heads(door.sync(entries(door, BATCH, "b-bench"), follow))
    began, size = time.perf_counter(), 0
    for batch in batches:
        answer = door.send(batch, follow)
        assert all(v["verdict"] == "stored" for v in answer["verdicts"])
        follow = heads(answer)
        size += door.sent
    return {"seconds": time.perf_counter() - began, "bytes": size}


def heads(answer: dict) -> dict[str, int]:
    return {key: build["head"] for key, build in answer["builds"].items()}


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        us = ours(Path(folder))
    them = pair()
    mine, theirs = ENTRIES / us["seconds"], ENTRIES / them["seconds"]
    report("replication", [
        row("ours: entries moved", mine, "events/s"),
        row("the pair: documents moved", theirs, "docs/s"),
        row("ours against the pair", mine / theirs, "ratio", ">= 2"),
        row("ours: bytes sent an entry", us["bytes"] / ENTRIES, "bytes", "<= 150"),
        row("the pair: bytes sent a document", them["batch"]["bytes"] / ENTRIES, "bytes"),
        row("ours: requests for 5,000", ENTRIES / BATCH, "requests"),
        row("the pair: requests for 5,000", them["batch"]["requests"], "requests"),
        row("ours: requests for one new entry", 1, "requests", "<= 1"),
        row("the pair: requests for one new document", them["one"], "requests"),
        row("ours: requests when there is nothing new", 1, "requests"),
        row("the pair: requests when there is nothing new", them["none"], "requests"),
    ])  # fmt: skip


if __name__ == "__main__":
    main()
