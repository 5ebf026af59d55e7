"""Events that came before the opening of their build: put aside, and taken in once somebody has opened it.

Two people share a phone, one of them opened the build there and his log-in ran out: what the other recorded comes first.
"""
from shop.models import Device

from .carry import Author
from .models import Event, Quarantine
from .shape import Draft, read_kept


def of(device: Device) -> list[tuple[Draft, Author]]:
    """What this device brought that waits for a build, in the order in which it came."""
    rows = Quarantine.objects.filter(device=device, kind="no_build").select_related("person").order_by("pk")
    found = [(read_kept(bytes(row.raw)), Author(row.person, row.role or row.person.role, row.carried)) for row in rows]
    stored = _stored([draft for draft, _ in found])
    return [(draft, author) for draft, author in found if (draft.dev, draft.n) not in stored]


def devices(device: Device) -> set[str]:
    """The devices whose events are among them."""
    return {draft.dev for draft, _ in of(device)} if device.homeless else set()


def _stored(drafts: list[Draft]) -> set[tuple[str, int]]:
    stored: set[tuple[str, int]] = set()
    for dev in {d.dev for d in drafts}:
        rows = Event.objects.filter(dev=dev, n__in=[d.n for d in drafts if d.dev == dev])
        stored |= {(dev, n) for n in rows.values_list("n", flat=True)}
    return stored
