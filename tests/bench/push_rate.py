"""Push throughput in events a second through the whole HTTP door, against plain inserts of the same rows in the same
database in the same run. Each database runs in a process of its own, since the form is chosen when Django starts.

SQLite runs with jobs inline, as the embedded form does, so its pushes carry the review of the build; PostgreSQL hands the
review to Redis, as the full form does.
"""

import gzip
import json
import os
import subprocess
import sys
import tempfile
import time
import uuid

from tests.bench.report import report, row
from tests.services import bench_shop

BUILD = "b-push-rate"
BATCHES = {1: 40, 100: 10, 500: 6}  # events in a batch: batches pushed


class Pusher:
    """A phone in this process: every request goes through the middleware, the views and the record."""

    def __init__(self):
        from rest_framework.test import APIClient

        self.door, self.dev, self.n, self.epoch, self.follow = APIClient(), uuid.uuid4().hex, 0, "", {}
        login = {"name": "marek", "password": "marek-bench", "dev": self.dev, "label": "bench"}
        answer = self.door.post("/api/login", login, format="json")
        assert answer.status_code == 200, answer.content
        self.door.credentials(HTTP_AUTHORIZATION="Device " + answer.json()["token"])
        opened = {"name": "Push rate", "procedure": "pushrod-v8", "revision": 1, "duty": "race", "note": ""}
        self.push([self.event("build.opened", opened)])

    def event(self, kind: str, body: dict) -> dict:
        self.n += 1
        return {"dev": self.dev, "n": self.n, "build": BUILD, "type": kind, "v": 1, "at": 1_764_068_400_000 + self.n, "seen": 0, "body": body}

    def reading(self) -> dict:
        figure = f"{2.4500 + self.n % 10 / 10_000:.4f}"
        return self.event("reading", {"point": "main_bore", "station": str(self.n % 5 + 1), "text": figure, "unit": "in"})

    def push(self, events: list[dict]) -> None:
        answer = self.door.post("/api/sync", {"dev": self.dev, "epoch": self.epoch, "events": events, "follow": self.follow}, format="json")
        assert answer.status_code == 200, answer.content
        said = answer.json()
        wrong = [v for v in said["verdicts"] if v["verdict"] != "stored"]
        assert not wrong, wrong
        self.epoch, self.follow = said["epoch"], {key: build["head"] for key, build in said["builds"].items()}


def pushed(phone: Pusher, batch: int, times: int) -> float:
    """Events a second through the door."""
    batches = [[phone.reading() for _ in range(batch)] for _ in range(times)]
    began = time.perf_counter()
    for events in batches:
        phone.push(events)
    return batch * times / (time.perf_counter() - began)


def inserted(batch: int, times: int) -> float:
    """Rows a second, inserted plainly into a table like the record's, one durable transaction a batch."""
    from django.db import connection, transaction
    from record.models import Event

    columns = [f for f in Event._meta.concrete_fields if f.name != "id"]
    names = ", ".join(f'"{f.column}"' for f in columns)
    last = Event.objects.order_by("-pk").values_list(*[f.attname for f in columns]).first()
    values = [f.get_db_prep_value(v, connection) for f, v in zip(columns, last)]
    sql = f"INSERT INTO bench_event ({names}) VALUES ({', '.join(['%s'] * len(columns))})"
    with connection.cursor() as cursor:
        cursor.execute("DROP TABLE IF EXISTS bench_event")
        cursor.execute(f"CREATE TABLE bench_event AS SELECT {names} FROM {Event._meta.db_table} WHERE 1 = 0")
        began = time.perf_counter()
        for _ in range(times):
            with transaction.atomic():
                cursor.executemany(sql, [values] * batch)
        took = time.perf_counter() - began
        cursor.execute("SELECT count(*) FROM bench_event")
        assert cursor.fetchone()[0] == batch * times
        cursor.execute("DROP TABLE bench_event")
    return batch * times / took


def measure() -> list[dict]:
    """Rows for the database this process was started with."""
    bench_shop.start(prepare=True)
    from django.db import connection

    phone, rows = Pusher(), []
    name = {"sqlite": "SQLite, jobs inline", "postgresql": "PostgreSQL, jobs by Redis"}[connection.vendor]
    for batch, times in BATCHES.items():
        door, plain = pushed(phone, batch, times), inserted(batch, times)
        rows.append(row(f"{name}: pushed, {batch} a batch", door, "events/s"))
        rows.append(row(f"{name}: plain inserts, {batch} a batch", plain, "rows/s"))
        rows.append(row(f"{name}: pushed against plain, {batch} a batch", door / plain, "ratio"))
    return rows + on_the_wire(phone) if connection.vendor == "sqlite" else rows


def on_the_wire(phone: Pusher) -> list[dict]:
    """Bytes of a full batch, raw and as a proxy would pack it, and how many requests news takes."""
    rows = [[e[name] for name in ("n", "build", "type", "v", "at", "seen", "body")] for e in (phone.reading() for _ in range(500))]
    body = json.dumps({"dev": phone.dev, "epoch": phone.epoch, "events": [], "entries": rows, "follow": phone.follow}, separators=(",", ":")).encode()
    none = json.dumps({"dev": phone.dev, "epoch": phone.epoch, "events": [], "follow": phone.follow}, separators=(",", ":")).encode()
    return [
        row("bytes an event on the wire, batch of 500", len(body) / 500, "bytes", "<= 150"),
        row("bytes an event, packed by gzip", len(gzip.compress(body)) / 500, "bytes"),
        row("bytes of a request that asks for news and has none", len(none), "bytes"),
        row("requests for one new event, its verdict and all news", 1, "requests", "<= 1"),
    ]


def in_a_process(**env: str) -> list[dict]:
    done = subprocess.run([sys.executable, __file__, "measure"], env=os.environ | env, stdout=subprocess.PIPE, text=True, check=True)
    return json.loads(done.stdout.splitlines()[-1])


def main() -> None:
    from tests.services import postgres, redis

    with tempfile.TemporaryDirectory() as data:
        rows = in_a_process(HALFTHOU_DATA=data, HALFTHOU_JOBS="inline", DATABASE_URL="")
        database, broker = postgres.start(), redis.start()
        try:
            full = {"DATABASE_URL": database.new_database(), "REDIS_URL": broker.url, "HALFTHOU_JOBS": "celery"}
            rows += in_a_process(HALFTHOU_DATA=data, **full)
        finally:
            broker.stop()
            database.stop()
    report("push_rate", rows)


if __name__ == "__main__":
    if "measure" in sys.argv:
        print(json.dumps(measure()))
    else:
        main()
