"""The things to read and tick in a step, one after the other."""
from __future__ import annotations

from ..events import spot_of
from ..fits import current, spot_state
from ..fold import part_of
from ..order import tick_state
from .fit_view import reading_figure
from .lens import Lens, capital

_STATE = {"not_read": "open", "read": "made", "stale": "stale", "contrary": "contrary"}
HELD_OPEN = 2


def entries(lens: Lens, step: dict) -> list[dict]:
    """Required work first, in the order to do it; then what may be read besides."""
    out = [_confirm_entry(lens, step, item) for item in step["confirms"]]
    for name in step["reads"]:
        out = out + _reading_entries(lens, name, False)
    for name in step["may_read"]:
        out = out + _reading_entries(lens, name, True)
    for name in step["may_measure"]:
        out = out + _measure_entries(lens, name)
    return out


def first_open(rows: list[dict]) -> int | None:
    """Index of the entry to do now: the first required one that is not made."""
    for i in range(len(rows)):
        if not rows[i]["optional"] and rows[i]["state"] != "made":
            return i
    return None


def _confirm_entry(lens: Lens, step: dict, item: dict) -> dict:
    key = step["id"] + "/" + item["id"]
    return _entry("confirm", key, item["text"], item["why"], "", tick_state(lens.build.ticks.get(key, [])),
                  {"type": "confirm", "body": {"step": step["id"], "item": item["id"]}})


def _entry(kind: str, spot: str, title: str, note: str, station: str, state: str, draft: dict) -> dict:
    return {"kind": kind, "spot": spot, "title": title, "note": note, "station": station, "state": _STATE[state],
            "optional": False, "shown": "", "other": "", "last": "", "draft": draft, "keypad": None}


def _reading_entries(lens: Lens, name: str, optional: bool) -> list[dict]:
    point = lens.procedure["points"][name]
    out = []
    for station in lens.build.stations(point["group"]):
        spot = spot_of(name, station)
        note = " · ".join([part for part in (point["how"], point["tool"]) if part])
        row = _entry("reading", spot, lens.spot_title("points", name, station), note, station, spot_state(lens.build, spot),
                     {"type": "reading", "body": {"point": name, "station": station, "tool": point["tool"]}})
        row["optional"] = optional
        row["keypad"] = keypad(lens, point["dimension"], point["scale"], point["band"], _neighbour(lens, name))
        _show_reading(lens, row, point, current(lens.build, spot))
        out.append(row)
    return out


def _show_reading(lens: Lens, row: dict, point: dict, reading: dict | None) -> None:
    if reading is None:
        return
    unit = lens.shown.unit(point["dimension"], point["scale"])
    text = reading_figure(lens, point, reading) + " " + lens.shown.label(unit)
    row["last"] = text
    if row["state"] == "made":
        row["shown"] = text
        row["other"] = " · ".join(lens.shown.beside(reading["value"], point["dimension"], point["scale"]))


def _neighbour(lens: Lens, name: str) -> int | None:
    """The reading taken last at any station of this point: its leading digits are held on the keypad."""
    found = None
    for station in lens.build.stations(lens.procedure["points"][name]["group"]):
        attempts = lens.build.readings.get(spot_of(name, station), [])
        for reading in attempts:
            if not lens.build.is_struck(reading["event"]) and (found is None or _later(reading, found)):
                found = reading
    return found["value"] if found else None


def _later(a: dict, b: dict) -> bool:
    return (a["event"]["at"], a["id"]) > (b["event"]["at"], b["id"])


def _measure_entries(lens: Lens, slot_name: str) -> list[dict]:
    slot = lens.procedure["slots"][slot_name]
    kind = lens.procedure["parts"][slot["part"]]
    out = []
    for station in lens.build.stations(slot["group"]):
        for name in lens.build.slot_parts(slot_name, station):
            part = part_of(lens.build, name)
            title = capital(kind["measures"]) + ", " + slot["title"]
            at = lens.station_title(slot["group"], station)
            row = _entry("measure", name, title + (" of " + at if at else ""), kind["tool"], station,
                         "read" if part["size"] is not None else "not_read", {"type": "part.measured", "body": {"part": name}})
            row["optional"] = True
            row["keypad"] = keypad(lens, kind["dimension"], "size", kind["band"], part["size"])
            if part["size"] is not None:
                row["shown"] = row["last"] = lens.shown.own(part["size"], kind["dimension"], "size")
            out.append(row)
    return out


def keypad(lens: Lens, dimension: str, scale: str, band: list | None, near: int | None) -> dict:
    """How to type a value: sizes fill a mask from the left, with the leading digits of `near` held; fits fill like a till."""
    unit = lens.shown.unit(dimension, scale)
    places = lens.shown.table[unit]["decimals"]
    whole = 3
    if band:
        whole = len(lens.shown.figure(band[1], unit, 0))
    held = ""
    if near is not None and scale == "size" and places > HELD_OPEN:
        text = lens.shown.figure(near, unit)
        held = "0" * (whole + 1 + places - len(text)) + text
        held = held[: len(held) - HELD_OPEN]
    return {"unit": unit, "label": lens.shown.label(unit), "fill": "left" if scale == "size" else "right",
            "whole": whole, "decimals": places, "held": held}
