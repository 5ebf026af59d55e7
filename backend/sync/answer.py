"""The answer of a sync: what every build the person may see has gained since the phone last asked."""
import time

from record import procedures, selectors
from record.chain import mark
from record.models import Build, BuildStatus
from record.rows import Row
from record.services import Verdict
from shop.models import Device, Person
from shop.selectors import people

MOST_EVENTS = 2_000


def answer(*, person: Person, device: Device, verdicts: list[Verdict], follow: dict[str, int], brief: bool) -> dict:
    """Every build's events are JSON texts already; see `render.py`. `brief`: what this phone wrote itself is not told back to it."""
    shop = person.shop
    builds = selectors.visible_builds(person).select_related("status")
    held = _held(verdicts, person, device) if brief else {}
    return {
        "epoch": shop.epoch,
        "time": int(time.time() * 1000),
        # What the phone may hold against this server: how many of its events are stored, the chain over them, and how many
        # things that it sent are put aside.
        "device": {"place": device.count, "link": device.link, "aside": selectors.put_aside(device)},
        "verdicts": [_verdict(v, shop.mark_key if v.row and v.row.build_id in held else "") for v in verdicts],
        "builds": {b.key: _build(b, follow.get(b.key, 0), shop.mark_key, held.get(b.pk, range(0))) for b in builds},
        "people": people(shop),
        "shop": {"id": shop.slug, "name": shop.name},
        "you": {"who": person.slug, "role": person.role},
    }


def _held(verdicts: list[Verdict], person: Person, device: Device) -> dict[int, range]:
    """By build: the positions given in this request, where all that it stored there was written by this person on this phone."""
    rows: dict[int, list[Row]] = {}
    for verdict in verdicts:
        if verdict.row:
            rows.setdefault(verdict.row.build_id, []).append(verdict.row)
    return {pk: range(found[0].seq, found[-1].seq + 1) for pk, found in rows.items()
            if all((row.dev, row.person_id, row.carried) == (device.dev, person.pk, "") for row in found)}


def _verdict(verdict: Verdict, key: str) -> dict:
    out: dict = {"n": verdict.n, "verdict": verdict.verdict}
    if verdict.seq is not None:
        out["seq"] = verdict.seq
    if verdict.why:
        out["why"] = verdict.why
    if key and (row := verdict.row):
        out["mark"] = mark(key, dev=row.dev, n=row.n, who=row.who, role=row.role, carried=row.carried, hash=row.hash)
    return out


def _build(build: Build, after: int, key: str, held: range) -> dict:
    status: BuildStatus | None = getattr(build, "status", None)
    news = selectors.events_after(build, after, MOST_EVENTS, key, held)
    return {
        "name": build.name,
        "procedure": build.procedure,
        "revision": build.revision,
        "digest": procedures.digest(build.procedure, build.revision),
        "head": build.head,
        "head_hash": build.head_hash,
        "events": [text for _, text in news],
        "more": len(news) == MOST_EVENTS and news[-1][0] < build.head,
        "findings": status.said["findings"] if status else [],
        "reviewed": status.seq if status else 0,
    }
