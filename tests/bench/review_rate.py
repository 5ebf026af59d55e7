"""The whole-build review over 1,000 builds on SQLite, and over builds that grow from 30 events to 3,000.

A review reads the events, asks the kernel and stores what it says. Builds a second are by the clock; what is compared is
processor time, since a disk that others use as well would drown it. BUILDS (1,000) sets how many builds.
"""

import os
import statistics
import tempfile
import time
from collections.abc import Callable

from tests.bench import fold_rate
from tests.bench.report import report, row
from tests.services import bench_shop

BUILDS = int(os.environ.get("BUILDS", "1000"))
EACH = 30
SIZES = (30, 100, 300, 1_000, 3_000)


def timed(work: Callable[[], object]) -> tuple[float, float]:
    """Seconds by the clock and of the processor."""
    clock, processor = time.perf_counter(), time.process_time()
    assert work()
    return time.perf_counter() - clock, time.process_time() - processor


def filled(key: str, size: int) -> int:
    """The number of a new build with so many events in the record."""
    from record.models import Build
    from record.services import ingest
    from record.shape import read
    from shop.models import Device, Person

    person = Person.objects.get(slug="marek")
    device, _ = Device.objects.get_or_create(dev="b" * 32, defaults={"shop": person.shop, "label": "bench"})
    first = device.count
    events = [
        event | {"dev": device.dev, "n": first + event["n"], "build": key, "body": struck(event["body"], first)} for event in fold_rate.log(size)
    ]
    for at in range(0, size, 500):
        verdicts = ingest(device=device, person=person, things=[read(event) for event in events[at : at + 500]])
        assert all(v.verdict == "stored" for v in verdicts), verdicts
    return Build.objects.get(key=key).pk


def struck(body: dict, first: int) -> dict:
    """A strike names the event as it is numbered here."""
    return body | {"event": f"{'b' * 32}:{first + int(body['event'].partition(':')[2])}"} if "event" in body else body


def many() -> list[dict]:
    from review import tasks

    builds = [filled(f"b-{number}", EACH) for number in range(BUILDS)]
    took = [timed(lambda pk=pk: tasks.review_build(pk)) for pk in builds]
    part = max(1, BUILDS // 10)
    clock, processor = [t[0] for t in took], [t[1] for t in took]
    return [
        row(f"reviews over {BUILDS} builds of {EACH} events", BUILDS / sum(clock), "builds/s"),
        row("median review, by the clock", statistics.median(clock) * 1000, "ms"),
        row("median review, processor", statistics.median(processor) * 1000, "ms"),
        row(
            "the last tenth against the first, processor",
            statistics.median(processor[-part:]) / statistics.median(processor[:part]),
            "ratio",
            "<= 1.5",
        ),
    ]


def growing() -> list[dict]:
    """Per event: the kernel's fold alone, and the review of which it is part."""
    from kernel.fold import Build as Fold
    from record.models import Build
    from review import tasks

    rows, each = [], {}
    for size in SIZES:
        pk = filled(f"b-of-{size}", size)
        procedure, log = fold_rate.PROCEDURE, fold_rate.log(size)
        fold = min(timed(lambda p=procedure, e=log: Fold(p, e))[1] for _ in range(3))
        times = []
        for _ in range(3):
            Build.objects.filter(pk=pk).update(dirty=True)
            times.append(timed(lambda pk=pk: tasks.review_build(pk))[1])
        each[size] = min(times) / size * 1e6
        rows.append(row(f"fold, processor, build of {size} events", fold / size * 1e6, "us/event"))
        rows.append(row(f"review, processor, build of {size} events", each[size], "us/event"))
    return [*rows, row("review per event, 3,000 events against 300", each[3_000] / each[300], "ratio", "<= 1.5")]


def main() -> None:
    with tempfile.TemporaryDirectory() as data:
        os.environ |= {"HALFTHOU_DATA": data, "DATABASE_URL": "", "HALFTHOU_JOBS": "off"}
        bench_shop.start(prepare=True)
        from review import tasks

        tasks.review_build.delay = lambda pk: None  # reviews are run here, one after the other
        report("review_rate", many() + growing())


if __name__ == "__main__":
    main()
