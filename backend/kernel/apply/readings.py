"""Readings, and what becomes of them: one of two is settled on, a filed ring must be read again."""
from __future__ import annotations

from ..events import event_id, knew, quantity_of, spot_of
from ..quantity import read
from ..sentence import Refused
from .common import disturb, entry_of, must_record


def reading(build, event: dict, body: dict) -> None:
    must_record(event)
    point = build.procedure["points"].get(body["point"])
    if point is None or body["station"] not in build.stations(point["group"]):
        raise Refused("reads_nothing", spot=spot_of(body["point"], body["station"]))
    spot = spot_of(body["point"], body["station"])
    number = quantity_of(body["text"], body["unit"], point["dimension"], build.procedure["units"])
    entry = entry_of(build, event, [spot])
    entry.update({"spot": spot, "point": body["point"], "station": body["station"], "value": number["value"],
                  "step": number["step"], "text": body["text"], "unit": body["unit"], "tool": body.get("tool") or "",
                  "with": _parts_around(build, body["point"], body["station"]), "order": build.applied})
    build.readings.setdefault(spot, []).append(entry)
    if not build.is_struck(event):
        heads = [h for h in build.heads.get(spot, []) if not knew(event, h["event"])]
        build.heads[spot] = heads + [entry]


def _parts_around(build, point: str, station: str) -> dict:
    """Which parts were in the slots that this point depends on, as `{slot: [part]}`."""
    out = {}
    for name in build.procedure["slots"]:
        slot = build.procedure["slots"][name]
        if point in slot["disturbs"]["points"]:
            same = slot["group"] and slot["group"] == build.procedure["points"][point]["group"]
            if same or not slot["group"]:
                out[name] = build.slot_parts(name, station if same else "")
    return out


def settled(build, event: dict, body: dict) -> None:
    if build.is_struck(event):
        return
    heads = build.heads.get(body["spot"], [])
    kept = [h for h in build.readings.get(body["spot"], []) if h["id"] == body["keep"]]
    if not kept:
        raise Refused("not_of_this_spot")
    build.heads[body["spot"]] = [h for h in heads if h["id"] != body["keep"] and not knew(event, h["event"])] + kept


def filed(build, event: dict, body: dict) -> None:
    """A ring was filed: its gap must be read again, and the turns belong to the next reading."""
    must_record(event)
    point = build.procedure["points"].get(body["point"])
    if point is None or body["station"] not in build.stations(point["group"]):
        raise Refused("no_ring_gap", spot=spot_of(body["point"], body["station"]))
    turns = read(body["turns"], {"num": 1000, "den": 1})["value"]
    if not build.is_struck(event):
        spot = spot_of(body["point"], body["station"])
        build.filed.setdefault(spot, []).append({"turns": turns, "event": event, "id": event_id(event), "order": build.applied})
        disturb(build, event, [spot])
