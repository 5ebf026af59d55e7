"""Kernel fold per event as a build's log grows to 10,000 events, and as one more event comes in on top.

The figure that matters is the ratio: a log ten times as long must cost the same per event. Times are of this machine.
"""

import gc
import json
import time
from pathlib import Path

from kernel.fold import Build

from tests.bench.report import report, row

PROCEDURE = json.loads((Path(__file__).parents[1] / "cases" / "procedures" / "pushrod-v8.json").read_text())
SIZES = (100, 1_000, 10_000)
AT_ONCE = 20


def spots() -> list[tuple[str, str]]:
    groups = PROCEDURE["groups"]
    stations = {name: [s["id"] for s in group["stations"]] for name, group in groups.items()}
    return [(name, station) for name, point in PROCEDURE["points"].items() for station in stations.get(point["group"], [""])]


def figure(point: str, i: int) -> str:
    """A reading in inches inside the point's band, moving by a tenth of a thou from one to the next."""
    low, high = PROCEDURE["points"][point]["band"]
    return f"{(low + high) / 2 / 25_400_000 + (i % 20) * 0.0001:.4f}"


def log(size: int) -> list[dict]:
    """A long day: the build opened, then readings of every spot again and again with a struck one in every fifty."""
    body = {"name": "Bench", "procedure": PROCEDURE["procedure"], "revision": PROCEDURE["revision"], "duty": "race", "note": ""}
    events = [event(1, "build.opened", body)]
    every = spots()
    for n in range(2, size + 1):
        point, station = every[n % len(every)]
        if n % 50 == 0:
            events.append(event(n, "strike", {"event": f"{'a' * 32}:{n - 1}", "why": "misread"}))
        else:
            events.append(event(n, "reading", {"point": point, "station": station, "text": figure(point, n), "unit": "in"}))
    return events


def event(n: int, kind: str, body: dict) -> dict:
    return {"dev": "a" * 32, "n": n, "build": "b-bench", "type": kind, "v": 1, "at": n, "seen": n - 1, "who": "marek",
            "role": "builder", "seq": n, "body": body}  # fmt: skip


def best(work, times: int = 3) -> float:
    """Seconds of the fastest of a few runs: the others had something else on the machine."""
    found = []
    for _ in range(times):
        gc.collect()
        began = time.perf_counter()
        work()
        found.append(time.perf_counter() - began)
    return min(found)


def one_more(size: int) -> float:
    """Microseconds to take in one more reading on top of a folded log: what a tap costs late in a build."""
    events = log(size)
    more = [event(size + i, *kind_and_body(i)) for i in range(1, AT_ONCE + 1)]
    build = Build(PROCEDURE, events)
    assert len(build.events) == size, "the log was not taken in whole"

    began = time.perf_counter()
    for each in more:
        build.add([each])
    took = time.perf_counter() - began
    assert len(build.events) == size + AT_ONCE
    return took / AT_ONCE * 1e6


def kind_and_body(i: int) -> tuple[str, dict]:
    point, station = spots()[i % len(spots())]
    return "reading", {"point": point, "station": station, "text": figure(point, i), "unit": "in"}


def main() -> None:
    rows, whole, each = [], {}, {}
    for size in SIZES:
        events = log(size)
        whole[size] = best(lambda events=events: Build(PROCEDURE, events)) / size * 1e6
        each[size] = min(one_more(size) for _ in range(3))
        rows.append(row(f"fold of a whole log, {size} events", whole[size], "us/event"))
        rows.append(row(f"one more event on {size}", each[size], "us/event"))
    rows.append(row("whole log, per event, 10,000 against 1,000", whole[10_000] / whole[1_000], "ratio", "<= 1.5"))
    rows.append(row("one more event, 10,000 against 1,000", each[10_000] / each[1_000], "ratio", "<= 2"))
    report("fold_rate", rows)


if __name__ == "__main__":
    main()
