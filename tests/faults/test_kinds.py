"""Every kind of fault that a shop's network, phones and server are known for is drawn, and often enough to meet the others.

What has to happen for real is in test_disk.py (a full disk, a locked file), test_real_kills.py (server and worker by SIGKILL,
Redis flushed, PostgreSQL restarted), test_nth_failure.py (every access to a store), tests/review/test_full_form.py (no
broker), tests/record/test_backup.py (a stale backup, by the commands) and tests/browser/test_killed.py (Chromium by SIGKILL).
"""

from collections import Counter

import pytest

from .schedule import YEAR_MS, drawn

SCHEDULES = 1_000
LEAST = 40  # schedules of the thousand that hold it


def net(*modes: str):
    return lambda step: step["op"] == "net" and step["mode"] in modes


def op(kind: str, **more):
    return lambda step: step["op"] == kind and all(step.get(key) == value for key, value in more.items())


DRAWN = {
    "request lost": net("lost", "refused"), "reply lost after the commit": net("reply_lost", "reply_refused"), "duplicate": net("twice"),
    "out of order": net("late", "late_reply"), "truncated request": net("truncated"), "truncated reply": net("reply_truncated"),
    "an answer that stalls": net("stall"), "a guest network's page with 200": net("page"), "a guest network's page, another status": net("page_401", "page_413"),
    "500": net("s500"), "502": net("s502"), "429": net("s429"), "413": net("s413"), "400": net("s400"),
    "tab killed between two awaits": op("kill"), "quota exceeded": op("quota", name="QuotaExceededError"), "database evicted": op("evict"),
    "two tabs": op("open", tab=1), "two phones": op("phone", phone=1), "a phone without locks": op("phone", locks=False),
    "clock a year ahead": op("clock", skew=YEAR_MS), "clock a year behind": op("clock", skew=-YEAR_MS),
    "session expired": op("expire"), "role changed while offline": op("role"), "somebody left while offline": op("active", active=False),
    "old client": op("phone", code="old"), "app changed under a queue": op("code"), "old server": op("old_server", on=True), "server new again": op("old_server", on=False),
    "database busy": op("db", kill=False), "server killed": op("db", kill=True),
    "message lost": op("job", how="drop"), "task twice": op("job", how="twice"), "task late, out of order": op("job", how="shuffle"), "task killed": op("job", how="killed"),
    "stale backup restored, said": op("restore", said=True), "stale backup restored, in silence": op("restore", said=False), "phone put back from a copy": op("putback"),
}  # fmt: skip

@pytest.fixture(scope="module")
def seen() -> Counter:
    held: Counter = Counter()
    for seed in range(1, SCHEDULES + 1):
        steps = drawn(seed)
        held.update(kind for kind, fits in DRAWN.items() if any(fits(step) for step in steps))
    return held


@pytest.mark.parametrize("kind", DRAWN)
def test_it_is_drawn(seen, kind):
    assert seen[kind] >= LEAST

