"""Parts: on the bench, measured, named, and put where they run."""
from __future__ import annotations

from ..about import about_part
from ..disturb import slot_targets
from ..events import quantity_of, spot_of
from ..sentence import Refused
from .common import disturb, must_record


def part_added(build, event: dict, body: dict) -> None:
    if build.is_struck(event):
        return
    kind = build.procedure["parts"].get(body["kind"])
    if kind is None:
        raise Refused("no_kind", kind=body["kind"])
    if body["part"] in build.parts:
        raise Refused("part_name_taken", part=body["part"])
    size = None
    if body["size"] is not None:
        size = quantity_of(body["size"]["text"], body["size"]["unit"], kind["dimension"], build.procedure["units"])["value"]
    about = about_part(body)
    build.notes[body["part"]] = about
    build.parts[body["part"]] = {"id": body["part"], "kind": body["kind"], "title": body["title"], "came": "", "group": "",
                                 "size": size, "event": event, "read": False, "about": about}


def part_noted(build, event: dict, body: dict) -> None:
    must_record(event)
    if build.is_struck(event):
        return
    part = part_of(build, body["part"])
    build.notes[part["id"]] = about_part(body)
    if part["id"] in build.parts:
        build.parts[part["id"]]["about"] = build.notes[part["id"]]


def part_measured(build, event: dict, body: dict) -> None:
    must_record(event)
    if build.is_struck(event):
        return
    part = part_of(build, body["part"])
    kind = build.procedure["parts"][part["kind"]]
    number = quantity_of(body["text"], body["unit"], kind["dimension"], build.procedure["units"])
    part.update({"size": number["value"], "event": event, "read": True})
    build.parts[part["id"]] = part


def part_of(build, name: str) -> dict:
    """A part by id, including those that came with a slot. Refused when there is no such part."""
    if name in build.parts:
        return build.parts[name]
    slot_name, _, station = name.partition("@")
    slot = build.procedure["slots"].get(slot_name)
    if slot is None or station not in build.stations(slot["group"]):
        raise Refused("no_part", part=name)
    return {"id": name, "kind": slot["part"], "title": slot["title"], "came": station, "group": slot["group"], "size": None,
            "event": None, "read": False, "about": build.notes.get(name) or about_part({})}


def put(build, event: dict, body: dict) -> None:
    must_record(event)
    if build.is_struck(event):
        return
    for put in body["puts"]:
        _check_put(build, put)
    for put in body["puts"]:
        spot = spot_of(put["slot"], put["station"])
        if build.slot_parts(put["slot"], put["station"]) == put["parts"]:
            continue
        build.held[spot] = list(put["parts"])
        disturb(build, event, slot_targets(build.procedure, put["slot"], put["station"]))


def _check_put(build, put: dict) -> None:
    slot = build.procedure["slots"].get(put["slot"])
    if slot is None or put["station"] not in build.stations(slot["group"]):
        raise Refused("no_slot", slot=spot_of(put["slot"], put["station"]))
    if slot["holds"] == "one" and len(put["parts"]) > 1:
        raise Refused("holds_one", slot=slot["title"])
    for name in put["parts"]:
        if part_of(build, name)["kind"] != slot["part"]:
            raise Refused("wrong_slot", part=name, slot=slot["title"])
