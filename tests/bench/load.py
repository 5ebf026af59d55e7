"""Eight writers at once, each in a process of its own, through the whole HTTP door: 10,000 writes of one entry each on SQLite,
and on PostgreSQL EVENTS entries in batches of 500 while a reader follows. Any busy error, gap or skip fails the run.

LOAD_EVENTS (40,000 when not set; 1,000,000 is the long run) and LOAD_WRITES (10,000) set how much.
"""

import json
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.bench.push_rate import Pusher
from tests.bench.report import report, row
from tests.services import bench_shop

WRITERS = 8
WRITES = int(os.environ.get("LOAD_WRITES", "10000"))
EVENTS = int(os.environ.get("LOAD_EVENTS", "40000"))


def write(each: int, batch: int) -> dict:
    """One writer: `each` entries in batches; how long it took and its slowest push in seconds."""
    phone, slowest, began = Pusher(), 0.0, time.perf_counter()
    for _ in range(each // batch):
        events = [phone.reading() for _ in range(batch)]
        start = time.perf_counter()
        phone.push(events)
        slowest = max(slowest, time.perf_counter() - start)
    return {"seconds": time.perf_counter() - began, "slowest": slowest}


def follow(until: int) -> dict:
    """A reader: asks from its last position on, and must be given the very next one each time."""
    reader, head, asked = Pusher(), 0, 0
    while head < until:
        said = reader.door.post(
            "/api/sync", {"dev": reader.dev, "epoch": reader.epoch, "events": [], "follow": {"b-push-rate": head}}, format="json"
        ).json()
        asked += 1
        reader.epoch = said["epoch"]
        news = said["builds"]["b-push-rate"]["events"]
        got = [e["seq"] for e in news]
        assert got == list(range(head + 1, head + 1 + len(got))), f"the reader skipped after {head}"
        head += len(got)
        if not got:
            time.sleep(0.05)
    return {"asked": asked, "head": head}


def child(*arguments: str, **env: str) -> subprocess.Popen:
    return subprocess.Popen([sys.executable, __file__, *arguments], env=os.environ | env, stdout=subprocess.PIPE, text=True)


def said(process: subprocess.Popen) -> dict:
    out, _ = process.communicate()
    assert process.returncode == 0, "a writer or reader failed; see above"
    return json.loads(out.splitlines()[-1])


def run(env: dict[str, str], total: int, batch: int, reader: bool) -> list[dict]:
    child("prepare", **env).wait()
    each = total // WRITERS // batch * batch
    began = time.perf_counter()
    writers = [child("write", str(each), str(batch), **env) for _ in range(WRITERS)]
    # Each Pusher, the reader's as well, opens the build once more.
    follower = child("follow", str(each * WRITERS + WRITERS + 1), **env) if reader else None
    done = [said(w) for w in writers]
    took = time.perf_counter() - began
    rows = [
        row("entries a second, all writers", each * WRITERS / took, "events/s"),
        row("slowest push", max(d["slowest"] for d in done), "s", "<= 20"),
    ]
    if follower:
        rows.append(row("reader: positions followed without a skip", said(follower)["head"], "events", f">= {each * WRITERS}"))
    verified = subprocess.run([sys.executable, "manage.py", "verify"], cwd=Path(__file__).parents[2] / "backend", env=os.environ | env)
    assert verified.returncode == 0
    return rows


def main() -> None:
    from tests.services import postgres, redis

    with tempfile.TemporaryDirectory() as data:
        env = {"HALFTHOU_DATA": data, "DATABASE_URL": "", "HALFTHOU_JOBS": "off"}
        rows = [r | {"name": f"SQLite, {WRITES} writes of one entry: {r['name']}"} for r in run(env, WRITES, 1, False)]
        database, broker = postgres.start(), redis.start()
        try:
            env |= {"DATABASE_URL": database.new_database(), "REDIS_URL": broker.url, "HALFTHOU_JOBS": "celery"}
            rows += [r | {"name": f"PostgreSQL, {EVENTS} entries in batches of 500: {r['name']}"} for r in run(env, EVENTS, 500, True)]
        finally:
            broker.stop()
            database.stop()
    report("load", rows)


if __name__ == "__main__":
    if len(sys.argv) == 1:
        main()
        sys.exit()
    bench_shop.start(prepare=sys.argv[1] == "prepare")
    from review import tasks

    tasks.review_build.delay = lambda pk: None  # what is measured is the record; reviews are measured elsewhere
    if sys.argv[1] == "prepare":
        Pusher()
    else:
        print(json.dumps(write(int(sys.argv[2]), int(sys.argv[3])) if sys.argv[1] == "write" else follow(int(sys.argv[2]))))
