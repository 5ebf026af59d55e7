"""The whole-build review over 1,000 builds on SQLite: builds a second, and whether the last hundred cost what the first did.

A review reads the events, asks the kernel and stores what it says; BUILDS (1,000) sets how many.
"""

import os
import tempfile
import time

from tests.bench.report import report, row
from tests.services import bench_shop

BUILDS = int(os.environ.get("BUILDS", "1000"))
EACH = 30


def filled(number: int, phone) -> list[dict]:
    build, body = f"b-{number}", {"name": f"Build {number}", "procedure": "pushrod-v8", "revision": 1, "duty": "race", "note": ""}
    events = [phone.event("build.opened", body) | {"build": build}]
    return events + [phone.reading() | {"build": build} for _ in range(EACH - 1)]


def main() -> None:
    with tempfile.TemporaryDirectory() as data:
        os.environ |= {"HALFTHOU_DATA": data, "DATABASE_URL": "", "HALFTHOU_JOBS": "inline"}
        bench_shop.start(prepare=True)
        from record.models import Build
        from record.services import ingest
        from record.shape import read
        from review import tasks
        from shop.models import Device, Person

        tasks.review_build.delay = lambda pk: None
        from tests.bench.push_rate import Pusher

        phone = Pusher()
        device, person = Device.objects.get(dev=phone.dev), Person.objects.get(slug="marek")
        for number in range(BUILDS):
            ingest(device=device, person=person, things=[read(e) for e in filled(number, phone)])
        took = []
        for pk in Build.objects.filter(key__startswith="b-").exclude(key="b-push-rate").order_by("pk").values_list("pk", flat=True):
            began = time.perf_counter()
            assert tasks.review_build(pk)
            took.append(time.perf_counter() - began)
    part = max(1, len(took) // 10)
    report("review_rate", [
        row(f"reviews over {BUILDS} builds of {EACH} events", len(took) / sum(took), "builds/s"),
        row("median review", sorted(took)[len(took) // 2] * 1000, "ms"),
        row("the last tenth against the first, medians", sorted(took[-part:])[part // 2] / sorted(took[:part])[part // 2], "ratio", "<= 1.5"),
    ])  # fmt: skip


if __name__ == "__main__":
    main()
