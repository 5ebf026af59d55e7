"""Is the record what it was when it was written?

Law: walks every build and every device from the first event, works out seals, chains and counts afresh, and names the
first event of each that is not what was stored. It reads and never mends.
"""
import json
from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple

from shop.models import Device

from . import chain
from .models import Build, Event, Quarantine
from .shape import WRITTEN


# Of what the phone wrote; `row.build` would be a query for every event.
IN_COLUMNS = [name for name in WRITTEN if name not in ("build", "body")]


class Flaw(NamedTuple):
    where: str  # a build’s key or a device’s number
    position: int
    says: str

    def __str__(self) -> str:
        return f"{self.where}, position {self.position}: {self.says}"


def flaws(receipts: dict[str, dict[int, str]] | None = None) -> Iterator[Flaw]:
    """The first flaw of each build, each device and each thing put aside.

    `receipts`: heads from a sheet or a phone, by build and position; the sheet prints the first sixteen digits.
    """
    told = receipts or {}
    for build in Build.objects.order_by("pk"):
        yield from build_flaw(build, _rows(Event.objects.filter(build=build).order_by("seq")), told.get(build.key, {}))
    known = set()
    for device in Device.objects.order_by("pk"):
        known.add(device.dev)
        yield from device_flaw(device, _rows(Event.objects.filter(dev=device.dev).order_by("place")))
    for event in Event.objects.exclude(dev__in=known).order_by("pk")[:1]:
        yield Flaw(event.dev, event.place, f"event {event.id_text} came from a device that is not in the record.")
    for aside in Quarantine.objects.order_by("pk").iterator(chunk_size=500):
        if chain.digest(bytes(aside.raw)) != aside.hash:
            yield Flaw(aside.event, aside.pk, "what was put aside under this name has been changed.")


def build_flaw(build: Any, rows: Iterable[Any], receipts: dict[int, str]) -> list[Flaw]:
    """The first event of a build that is not what was stored, if any."""
    head, last = "", 0
    for row in rows:
        head = chain.next_link(head, chain.joins(build, row.seq, row.hash, row.seal))
        wrong = _gap(last + 1, row.seq) or row_problem(build, row) or ("" if row.chain == head else OTHER_CHAIN.format(row.dev, row.n))
        if wrong:
            return [Flaw(build.key, min(last + 1, row.seq), wrong)]
        last = row.seq
        if not head.startswith(receipts.get(last, head)):
            return [Flaw(build.key, last, "the head here is not the one that was printed. Something up to here was written anew.")]
    if last != build.head or head != build.head_hash:
        return [Flaw(build.key, min(last, build.head) + 1, f"the events end at {last}, and the head does not fit: what followed was cut off.")]
    beyond = [seq for seq in receipts if seq > last]
    return [Flaw(build.key, last + 1, f"the record ends at {last}, and a head was printed at {min(beyond)}.")] if beyond else []


def device_flaw(device: Any, rows: Iterable[Any]) -> list[Flaw]:
    link, last = "", 0
    for row in rows:
        link = chain.next_link(link, row.seal)
        wrong = _gap(last + 1, row.place) or ("" if row.link == link else OTHER_CHAIN.format(row.dev, row.n))
        if wrong:
            return [Flaw(device.dev, min(last + 1, row.place), wrong)]
        last = row.place
    if (last, link) != (device.count, device.link):
        return [Flaw(device.dev, min(last, device.count) + 1, f"{last} events of this device are here and {device.count} were stored.")]
    return []


OTHER_CHAIN = "event {}:{} does not follow on the one before it; it, or one before it, is not the one that was stored."


def row_problem(build: Any, row: Any) -> str:
    """What is wrong with one event by itself."""
    if chain.digest(bytes(row.raw)) != row.hash:
        return f"the bytes of event {row.dev}:{row.n} are not those that were stored."
    said = json.loads(bytes(row.raw))
    columns = {name: getattr(row, name) for name in IN_COLUMNS} | {"build": build.key, "body": said["body"]}
    if said != columns:
        return f"the columns of event {row.dev}:{row.n} do not say what its bytes say."
    if chain.seal(row) != row.seal:
        return f"the stamps of event {row.dev}:{row.n} (who, role, time, place) are not those that were sealed."
    return ""


def _gap(due: int, found: int) -> str:
    return "" if found == due else f"no event is here; the next one is at {found}."


def _rows(query) -> Iterator[Event]:
    return query.iterator(chunk_size=1000)
