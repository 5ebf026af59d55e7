"""The board: one entry a build, out of the projections. No rule here; what is held and why comes from the kernel."""
import hashlib
import time
from datetime import datetime

from record import selectors
from record.models import Build, BuildStatus, Event
from shop.models import Device, Person
from shop.selectors import names


def stamp(person: Person) -> str:
    """Changes whenever the board would. Three small queries, so a poll every few seconds costs nothing."""
    builds = selectors.visible_builds(person).values_list("key", "name", "head", "dirty", "status__seq", "claimed")
    devices = Device.objects.filter(shop=person.shop).order_by("pk").values_list("pk", "label", "last_sync", "waiting")
    people = Person.objects.filter(shop=person.shop).order_by("pk").values_list("slug", "name", "role")
    seen = repr((person.pk, list(builds), list(devices), list(people)))
    return f'"{hashlib.sha256(seen.encode()).hexdigest()[:32]}"'


def board(person: Person) -> dict:
    builds = list(selectors.visible_builds(person).select_related("status"))
    devices = {d.dev: d for d in Device.objects.filter(shop=person.shop, last_sync__isnull=False).select_related("person")}
    return {
        "time": int(time.time() * 1000),
        "shop": person.shop.name,
        "builds": [_build(b, devices, names(person.shop)) for b in builds],
    }


def _build(build: Build, devices: dict[str, Device], people: dict[str, str]) -> dict:
    status = said_of(build)
    overview = status["overview"] or {}
    return {
        "id": build.key,
        "name": build.name,
        "procedure": build.procedure,
        "phases": overview.get("phases", []),
        "holds": [{"title": h["title"], "sentence": h["sentence"], "since": h["since"]} for h in status["holds"]],
        "again": overview.get("again", []),
        "concessions": overview.get("concessions", []),
        "findings": status["findings"],
        "fits": status["fits"],
        "working": _working(build, overview, people),
        "devices": [_device(devices[dev]) for dev in status["devices"] if dev in devices],
        "head": build.head,
        "reviewed": build.status.seq if hasattr(build, "status") else 0,
        "last_event": ms(build.last_event),
    }


def said_of(build: Build) -> dict:
    status: BuildStatus | None = getattr(build, "status", None)
    empty: dict = {"overview": None, "findings": [], "fits": [], "holds": [], "devices": []}
    return status.said if status else empty


def _working(build: Build, overview: dict, people: dict[str, str]) -> dict | None:
    """Who wrote last, when (server time), and the step that is next."""
    last = Event.objects.filter(build=build, seq=build.head).values_list("who", flat=True).first()
    if last is None:
        return None
    steps = {s["id"]: s["title"] for s in overview.get("steps", [])}
    return {"who": people.get(last, last), "at": ms(build.last_event), "step": steps.get(overview.get("next"), "")}


def _device(device: Device) -> dict:
    who = device.person.name if device.person else ""
    return {"label": str(device), "who": who, "last_sync": ms(device.last_sync), "waiting": device.waiting}


def ms(when: datetime | None) -> int:
    return int(when.timestamp() * 1000) if when else 0
