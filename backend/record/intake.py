"""One batch on its way into the record. Law: events get their positions in the build and in their device here, under the
locks that `services.ingest` holds, and nowhere else.
"""
from collections.abc import Iterator

from django.db import transaction
from django.utils import timezone

from shop.models import Device, Person, Role

from . import chain, signals
from .carry import Author, author_of
from .models import Build, Event, Quarantine
from .rows import Row, insert
from .shape import Draft, Misfit
from .verdict import Verdict

NO_BUILD = "There is no such build here. Open the build on this phone first."
NOT_YOURS = "Only an owner or a builder may open a build. Ask one of them to open it."
FORK = "This event’s number was already used for another one. Both are kept; the first one stands."
OPENERS = (Role.OWNER, Role.BUILDER)
FOREIGN = "It was written on another phone, and nothing here vouches for its author. Let an owner bring it in."


class Intake:
    """`waiting`: events put aside earlier for want of their build, each with its author."""

    def __init__(self, devices: dict[str, Device], device: Device, person: Person, drafts: list[Draft],
                 waiting: list[tuple[Draft, Author]], claims: bool):
        self.devices, self.device, self.person, self.claims = devices, device, person, claims
        self.own = Author(person, person.role)
        self.authors: dict[tuple[str, int], Author | None] = {(d.dev, d.n): author for d, author in waiting}
        self.authors |= {(d.dev, d.n): self._author(d) for d in drafts}
        self.known = _known(drafts)
        every = drafts + [d for d, _ in waiting]
        self.builds, self.opened = _locked_builds(device, every, _openings(every, self.known), self.authors)
        self._unheard_of(drafts)
        self.verdicts: list[Verdict] = []
        self.aside: list[Quarantine] = []
        self.touched: set[str] = set()
        self.homeless = False
        self.now = timezone.now()

    def take(self, thing: Draft | Misfit) -> Verdict:
        if isinstance(thing, Misfit):
            self._put_aside(thing.kind, thing.why, thing.event, thing.raw)
            return Verdict(thing.n, "quarantined", why=thing.why)
        if (thing.dev, thing.n) in self.known:
            return self._again(thing)
        author, build = self.authors[thing.dev, thing.n], self.builds.get(thing.build)
        if author is None:
            self._put_aside("foreign", FOREIGN, thing.id_text, thing.raw)
            return Verdict(thing.n, "quarantined", why=FOREIGN)
        if build is None:
            return self._homeless(thing, author)
        return self._append(build, thing, author)

    def _author(self, draft: Draft) -> Author | None:
        if draft.dev == self.device.dev and not self.claims:
            return self.own
        return author_of(draft, self.person, self.devices.get(draft.dev))

    def _homeless(self, draft: Draft, author: Author) -> Verdict:
        self.homeless = True
        why = NOT_YOURS if draft.type == "build.opened" else NO_BUILD
        self._put_aside("no_build", why, draft.id_text, draft.raw, author=author)
        return Verdict(draft.n, "quarantined", why=why)

    def _again(self, draft: Draft) -> Verdict:
        known_hash, seq = self.known[draft.dev, draft.n]
        if known_hash == draft.hash:
            return Verdict(draft.n, "duplicate", seq=seq)
        build = self.builds.get(draft.build)
        self._put_aside("fork", FORK, draft.id_text, draft.raw, build)
        return Verdict(draft.n, "fork", why=FORK)

    def _append(self, build: Build, draft: Draft, author: Author) -> Verdict:
        device = self.devices[draft.dev]
        build.head += 1
        device.count += 1
        row = Row(
            build_id=build.pk, seq=build.head, dev=draft.dev, n=draft.n, place=device.count, type=draft.type, v=draft.v, at=draft.at,
            seen=draft.seen, who=author.person.slug, role=author.role, person_id=author.person.pk, carried=author.carried,
            raw=draft.raw, hash=draft.hash, received=self.now,
        )
        row.seal = chain.seal(row)
        row.chain = build.head_hash = chain.next_link(build.head_hash, chain.joins(build, row.seq, row.hash, row.seal))
        row.link = device.link = chain.next_link(device.link, row.seal)
        build.last_event = self.now
        self.touched.add(build.key)
        self.known[draft.dev, draft.n] = (draft.hash, build.head)
        return Verdict(draft.n, "stored", seq=build.head, row=row)

    def _unheard_of(self, drafts: list[Draft]) -> None:
        """A signed event may name a phone that this copy of the record has never heard of."""
        vouched = {d.dev for d in drafts if d.build in self.builds and self.authors[d.dev, d.n] is not None}
        for dev in sorted(vouched - self.devices.keys()):
            self.devices[dev] = Device.objects.create(shop_id=self.device.shop_id, dev=dev, label="a phone from before the restore")

    def _put_aside(self, kind: str, why: str, event: str, raw: bytes, build: Build | None = None,
                   author: Author | None = None) -> None:
        if build is not None:
            self.touched.add(build.key)
        author = author or self.own
        self.aside.append(Quarantine(
            shop_id=self.device.shop_id, device=self.device, person=author.person, role=author.role, carried=author.carried,
            build=build, kind=kind, why=why, event=event, raw=raw, hash=chain.digest(raw), received=self.now,
        ))

    def store(self, things: list[Draft | Misfit], still_away: bool) -> list[Verdict]:
        """A verdict for each, in order. `still_away`: other events of this phone go on waiting for their build."""
        insert(self._rows(things))
        self.device.homeless = self.homeless or still_away
        # The same bytes sent twice are put aside once.
        Quarantine.objects.bulk_create(self.aside, ignore_conflicts=True)
        for device in self.devices.values():
            device.save(update_fields=["count", "link", "homeless"])
        for key in sorted(self.touched):
            build = self.builds[key]
            build.dirty = True
            build.save(update_fields=["head", "head_hash", "last_event", "dirty"])
            _announce(build.pk)
        return self.verdicts

    def _rows(self, things: list[Draft | Misfit]) -> Iterator[Row]:
        """The database stores the first ones while the next are being judged and sealed."""
        for thing in things:
            verdict = self.take(thing)
            self.verdicts.append(verdict)
            if verdict.row:
                yield verdict.row


def _announce(build_pk: int) -> None:
    transaction.on_commit(lambda: signals.build_changed.send_robust(sender=Build, build_pk=build_pk))


def _known(drafts: list[Draft]) -> dict[tuple[str, int], tuple[str, int]]:
    """Hash and position of those that are stored already. Their devices are locked, so nothing of theirs comes in meanwhile."""
    found: dict[tuple[str, int], tuple[str, int]] = {}
    for dev in {d.dev for d in drafts}:
        stored = Event.objects.filter(dev=dev)
        highest = stored.order_by("-n").values_list("n", flat=True).first() or 0
        # What a phone sends is mostly new, and asking after each of 500 numbers is the dearest question of a push.
        again = [d.n for d in drafts if d.dev == dev and d.n <= highest]
        rows = stored.filter(n__in=again).values_list("n", "hash", "seq") if again else ()
        found |= {(dev, n): (h, seq) for n, h, seq in rows}
    return found


def _openings(drafts: list[Draft], known: dict[tuple[str, int], tuple[str, int]]) -> list[Draft]:
    """Those that would open a build; one whose number is taken does not."""
    first: dict[tuple[str, int], Draft] = {}
    for draft in drafts:
        first.setdefault((draft.dev, draft.n), draft)
    return [d for key, d in first.items() if d.type == "build.opened" and key not in known]


def _locked_builds(device: Device, drafts: list[Draft], opening: list[Draft], authors: dict[tuple[str, int], Author | None]
                   ) -> tuple[dict[str, Build], bool]:
    """The builds of these events, and whether any was opened just now."""
    mine = Build.objects.filter(shop=device.shop_id, key__in={d.build for d in drafts})
    known = set(mine.values_list("key", flat=True)) if opening else set()
    openings = {}
    for draft in reversed(opening):  # the earliest has the word
        author = authors[draft.dev, draft.n]
        if draft.build not in known and author is not None and author.role in OPENERS:
            openings[draft.build] = (draft, author.person)
    for key in sorted(openings):
        _open_build(device, *openings[key])
    return {b.key: b for b in mine.select_for_update().order_by("pk")}, bool(openings)


def _open_build(device: Device, draft: Draft, person: Person) -> None:
    body = draft.body
    revision = body.get("revision")
    build, made = Build.objects.get_or_create(shop_id=device.shop_id, key=draft.build, defaults={
        "name": _line(body.get("name"), 120) or draft.build,
        "procedure": _line(body.get("procedure"), 80),
        "revision": revision if type(revision) is int and 0 < revision < 2**31 else 0,
        "duty": _line(body.get("duty"), 40),
    })
    if made:
        build.people.add(person)


def _line(value: object, most: int) -> str:
    """Text a column can hold: no control characters, no halves of a character, cut to length."""
    return "".join(c for c in value if c.isprintable())[:most] if isinstance(value, str) else ""
