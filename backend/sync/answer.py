"""The answer of a sync: what every build the person may see has gained since the phone last asked."""
import time

from record import procedures, selectors
from record.models import Build, BuildStatus
from record.services import Verdict
from shop.models import Device, Person
from shop.selectors import people

MOST_EVENTS = 2_000


def answer(*, person: Person, device: Device, verdicts: list[Verdict], follow: dict[str, int]) -> dict:
    """Every build's events are JSON texts already; see `render.py`."""
    shop = person.shop
    return {
        "epoch": shop.epoch,
        "time": int(time.time() * 1000),
        # What the phone may hold against this server: how many of its events are stored, and the chain over them.
        "device": {"place": device.count, "link": device.link},
        "verdicts": [_verdict(v) for v in verdicts],
        "builds": {b.key: _build(b, follow.get(b.key, 0)) for b in selectors.visible_builds(person).select_related("status")},
        "people": people(shop),
        "shop": {"id": shop.slug, "name": shop.name},
    }


def _verdict(verdict: Verdict) -> dict:
    out: dict = {"n": verdict.n, "verdict": verdict.verdict}
    if verdict.seq is not None:
        out["seq"] = verdict.seq
    if verdict.why:
        out["why"] = verdict.why
    return out


def _build(build: Build, after: int) -> dict:
    status: BuildStatus | None = getattr(build, "status", None)
    news = selectors.events_after(build, after, MOST_EVENTS)
    return {
        "name": build.name,
        "procedure": build.procedure,
        "revision": build.revision,
        "digest": procedures.digest(build.procedure, build.revision),
        "head": build.head,
        "head_hash": build.head_hash,
        "events": [text for _, text in news],
        "more": bool(news) and news[-1][0] < build.head,
        "findings": status.said["findings"] if status else [],
        "reviewed": status.seq if status else 0,
    }
