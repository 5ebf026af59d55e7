"""Writing to the record. Law: one transaction stores events, gives them their `seq` and marks the build for review.

Lock order is device, then builds by number, so two phones never wait for each other.
"""
import hashlib
from dataclasses import dataclass
from datetime import datetime

from django.db import transaction
from django.utils import timezone

from shop.models import Device, Person, Role

from . import signals
from .models import Build, Event, Quarantine
from .shape import Draft, Misfit, digest

NO_BUILD = "There is no such build here. Open the build on this phone first."
NOT_YOURS = "Only an owner or a builder may open a build. Ask one of them to open it."
FORK = "This event’s number was already used for another one. Both are kept; the first one stands."


@dataclass(frozen=True)
class Verdict:
    n: int | None
    verdict: str
    seq: int | None = None
    why: str = ""


@transaction.atomic
def ingest(*, device: Device, person: Person, things: list[Draft | Misfit]) -> list[Verdict]:
    """A verdict for each thing, in order. Everything is stored when this returns and its transaction commits."""
    Device.objects.select_for_update().get(pk=device.pk)
    intake = _Intake(device, person, [t for t in things if isinstance(t, Draft)])
    verdicts = [intake.take(thing) for thing in things]
    intake.store()
    return verdicts


class _Intake:
    """One batch on its way into the record."""

    def __init__(self, device: Device, person: Person, drafts: list[Draft]):
        self.device, self.person, self.now = device, person, timezone.now()
        self.builds = _locked_builds(device, person, drafts, self.now)
        rows = Event.objects.filter(dev=device.dev, n__in=[d.n for d in drafts])
        self.known = {n: (h, seq) for n, h, seq in rows.values_list("n", "hash", "seq")}
        self.rows: list[Event] = []
        self.aside: list[Quarantine] = []
        self.touched: set[str] = set()

    def take(self, thing: Draft | Misfit) -> Verdict:
        if isinstance(thing, Misfit):
            self._put_aside(thing.kind, thing.why, thing.event, thing.raw, None)
            return Verdict(thing.n, "quarantined", why=thing.why)
        if thing.n in self.known:
            return self._again(thing)
        build = self.builds.get(thing.build)
        if build is None:
            return self._homeless(thing)
        return self._append(build, thing)

    def _again(self, draft: Draft) -> Verdict:
        known_hash, seq = self.known[draft.n]
        if known_hash == draft.hash:
            return Verdict(draft.n, "duplicate", seq=seq)
        build = self.builds.get(draft.build)
        self._put_aside("fork", FORK, f"{draft.dev}:{draft.n}", draft.raw, build)
        return Verdict(draft.n, "fork", why=FORK)

    def _homeless(self, draft: Draft) -> Verdict:
        why = NOT_YOURS if draft.type == "build.opened" else NO_BUILD
        self._put_aside("no_build", why, f"{draft.dev}:{draft.n}", draft.raw, None)
        return Verdict(draft.n, "quarantined", why=why)

    def _append(self, build: Build, draft: Draft) -> Verdict:
        build.head += 1
        build.head_hash = hashlib.sha256((build.head_hash + draft.hash).encode()).hexdigest()
        build.last_event = self.now
        self.touched.add(build.key)
        self.known[draft.n] = (draft.hash, build.head)
        self.rows.append(Event(
            build=build, seq=build.head, dev=draft.dev, n=draft.n, type=draft.type, v=draft.v, at=draft.at,
            seen=draft.seen, who=self.person.slug, role=self.person.role, person=self.person, raw=draft.raw,
            hash=draft.hash, received=self.now,
        ))
        return Verdict(draft.n, "stored", seq=build.head)

    def _put_aside(self, kind: str, why: str, event: str, raw: bytes, build: Build | None) -> None:
        if build is not None:
            self.touched.add(build.key)
        self.aside.append(Quarantine(
            shop=self.device.shop, device=self.device, person=self.person, build=build, kind=kind, why=why[:300],
            event=event, raw=raw, hash=digest(raw), received=self.now,
        ))

    def store(self) -> None:
        Event.objects.bulk_create(self.rows, batch_size=200)
        # The same bytes sent twice are put aside once.
        Quarantine.objects.bulk_create(self.aside, ignore_conflicts=True, batch_size=200)
        for key in sorted(self.touched):
            build = self.builds[key]
            build.dirty = True
            build.save(update_fields=["head", "head_hash", "last_event", "dirty"])
            _announce(build.pk)


def _announce(build_pk: int) -> None:
    transaction.on_commit(lambda: signals.build_changed.send_robust(sender=Build, build_pk=build_pk))


def _locked_builds(device: Device, person: Person, drafts: list[Draft], now: datetime) -> dict[str, Build]:
    keys = {d.build for d in drafts}
    mine = Build.objects.filter(shop=device.shop, key__in=keys)
    if person.role in (Role.OWNER, Role.BUILDER):
        known = set(mine.values_list("key", flat=True))
        openings = {d.build: d for d in reversed(drafts) if d.type == "build.opened" and d.build not in known}
        for key in sorted(openings):
            _open_build(device, person, openings[key])
    return {b.key: b for b in mine.select_for_update().order_by("pk")}


def _open_build(device: Device, person: Person, draft: Draft) -> None:
    body = draft.body
    revision = body.get("revision")
    build, made = Build.objects.get_or_create(shop=device.shop, key=draft.build, defaults={
        "name": _line(body.get("name"), 120) or draft.build,
        "procedure": _line(body.get("procedure"), 80),
        "revision": revision if type(revision) is int and 0 <= revision < 2**31 else 0,
        "duty": _line(body.get("duty"), 40),
    })
    if made:
        build.people.add(person)


def _line(value: object, most: int) -> str:
    """Text a column can hold: no control characters, no halves of a character, cut to length."""
    return "".join(c for c in value if c.isprintable())[:most] if isinstance(value, str) else ""
