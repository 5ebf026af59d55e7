"""Writing to the record. Law: one transaction stores events, gives them their positions and marks the build for review.

Lock order is devices by number, then builds by number, so two phones never wait for each other.
"""
from django.db import transaction

from shop.models import Device, Person, Shop

from . import orphans
from .intake import Intake
from .shape import Draft, Misfit
from .verdict import Verdict

__all__ = ["Verdict", "adopt_waiting", "ingest"]


@transaction.atomic(savepoint=False)
def ingest(*, device: Device, person: Person, things: list[Draft | Misfit], claims: bool = False) -> list[Verdict]:
    """A verdict for each thing, in order; then one for each event of this phone whose build has been opened meanwhile.

    `claims`: the events come from a file and say who wrote them; otherwise what this phone sends is the work of `person`.
    Everything is stored when this returns and its transaction commits; `device` then says what is stored of it.
    """
    drafts = [t for t in things if isinstance(t, Draft)]
    devices = _locked(device, {d.dev for d in drafts} | orphans.devices(device))
    waiting = orphans.of(devices[device.dev]) if devices[device.dev].homeless else []
    intake = Intake(devices, devices[device.dev], person, drafts, waiting, claims)
    came_home = [draft for draft, _ in waiting if draft.dev in devices and draft.build in intake.builds]
    verdicts = intake.store([*things, *came_home], still_away=len(came_home) < len(waiting))
    device.count, device.link, device.homeless = intake.device.count, intake.device.link, intake.device.homeless
    if intake.opened:
        # Others may have recorded in that build already. What fails here is found by the sweep.
        transaction.on_commit(lambda: adopt_waiting(device.shop), robust=True)
    return verdicts


def adopt_waiting(shop: Shop | None = None) -> int:
    """Takes in what waited for its build, also of phones that do not come any more. How many events."""
    taken = 0
    devices = Device.objects.filter(homeless=True).select_related("shop")
    for device in devices.filter(shop=shop) if shop else devices:
        person = Person.objects.filter(shop=device.shop).order_by("pk").first()
        if person is not None:
            taken += sum(v.verdict == "stored" for v in ingest(device=device, person=person, things=[]))
    return taken


def _locked(device: Device, devs: set[str]) -> dict[str, Device]:
    rows = Device.objects.select_for_update().filter(shop=device.shop_id, dev__in=devs | {device.dev}).order_by("pk")
    return {row.dev: row for row in rows}
