"""The things to read and tick in a step, one after the other."""
from __future__ import annotations

from ..events import spot_of
from ..fits import current, spot_state
from ..apply.parts import part_of
from ..order import tick_state
from ..show import scale_of
from .amount import reading_figure
from .lens import Lens, capital

_STATE = {"not_read": "open", "read": "made", "stale": "stale", "contrary": "contrary"}
HELD_OPEN = 2


def entries(lens: Lens, step: dict) -> list[dict]:
    """Required work first, in the order to do it; then what may be read besides."""
    out = [_choice_entry(lens, name) for name in step.get("asks", [])]
    out = out + [_confirm_entry(lens, step, item) for item in step["confirms"]]
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


def first_wanted(lens: Lens, step: dict, rows: list[dict]) -> int | None:
    """Index of a part whose size is not known though a later gate rests on it: what is left where nothing is open any more."""
    gates = [name for other in lens.procedure["steps"] for name in other["gates"]]
    sizes = [slot for name in step["works_out"] if name in gates for slot in lens.procedure["fits"][name].get("sizes") or []]
    parts = [part for slot in step["may_measure"] if slot in sizes for _, part in _seated(lens, slot)]
    for i in range(len(rows)):
        if rows[i]["kind"] == "measure" and rows[i]["state"] == "open" and rows[i]["spot"] in parts:
            return i
    return None


def _choice_entry(lens: Lens, name: str) -> dict:
    choice, made = lens.procedure["choices"][name], lens.build.choices.get(name)
    row = _entry("choice", name, choice["title"], "", "", "read" if made else "not_read",
                 {"type": "choice.made", "body": {"choice": name}})
    row["options"] = [{"id": o["id"], "title": o["title"], "note": o["source"]} for o in choice["options"]]
    if made:
        row["chosen"] = made["option"]
        row["shown"] = row["last"] = made["title"]
    return row


def _confirm_entry(lens: Lens, step: dict, item: dict) -> dict:
    key = step["id"] + "/" + item["id"]
    row = _entry("confirm", key, item["text"], item["why"], "", tick_state(lens.build.ticks.get(key, [])),
                 {"type": "confirm", "body": {"step": step["id"], "item": item["id"]}})
    row["salient"] = bool(item.get("last"))
    return row


def _entry(kind: str, spot: str, title: str, note: str, station: str, state: str, draft: dict) -> dict:
    return {"kind": kind, "spot": spot, "title": title, "note": note, "station": station, "state": _STATE[state],
            "optional": False, "shown": "", "other": "", "last": "", "draft": draft, "keypad": None,
            "options": [], "chosen": "", "salient": False}


def _reading_entries(lens: Lens, name: str, optional: bool) -> list[dict]:
    point = lens.procedure["points"][name]
    pad = keypad(lens, point["dimension"], scale_of(point), point["band"], _known(lens, name))
    out = []
    for station in lens.build.stations(point["group"]):
        spot = spot_of(name, station)
        note = " · ".join([part for part in (point["how"], point["tool"]) if part])
        row = _entry("reading", spot, lens.spot_title("points", name, station), note, station, spot_state(lens.build, spot),
                     {"type": "reading", "body": {"point": name, "station": station, "tool": point["tool"]}})
        row["optional"] = optional
        row["keypad"] = pad
        _show_reading(lens, row, point, current(lens.build, spot))
        out.append(row)
    return out


def _show_reading(lens: Lens, row: dict, point: dict, reading: dict | None) -> None:
    if reading is None:
        return
    unit = lens.shown.unit(point["dimension"], scale_of(point))
    text = reading_figure(lens, point, reading) + " " + lens.shown.label(unit)
    row["last"] = text
    if row["state"] == "made":
        row["shown"] = text
        row["other"] = " · ".join(lens.shown.beside(reading["value"], point["dimension"], scale_of(point)))


def _known(lens: Lens, name: str) -> list[int]:
    """What this point reads now at every station where it was read."""
    group = lens.procedure["points"][name]["group"]
    found = [current(lens.build, spot_of(name, station)) for station in lens.build.stations(group)]
    return [reading["value"] for reading in found if reading is not None]


def _measure_entries(lens: Lens, slot_name: str) -> list[dict]:
    slot = lens.procedure["slots"][slot_name]
    kind = lens.procedure["parts"][slot["part"]]
    out = []
    for station, name in _seated(lens, slot_name):
        part = part_of(lens.build, name)
        at = lens.station_title(slot["group"], station)
        title = lens.say("measure_of_at" if at else "measure_of", what=capital(kind["measures"]), slot=slot["title"], at=at)
        row = _entry("measure", name, title, kind["tool"], station,
                     "read" if part["size"] is not None else "not_read", {"type": "part.measured", "body": {"part": name}})
        row["optional"] = True
        row["keypad"] = keypad(lens, kind["dimension"], "size", kind["band"], [] if part["size"] is None else [part["size"]])
        if part["size"] is not None:
            row["shown"] = row["last"] = lens.shown.own(part["size"], kind["dimension"], "size")
        out.append(row)
    return out


def _seated(lens: Lens, slot: str) -> list[tuple[str, str]]:
    """`(station, part)` of every part in a slot."""
    stations = lens.build.stations(lens.procedure["slots"][slot]["group"])
    return [(station, part) for station in stations for part in lens.build.slot_parts(slot, station)]


def keypad(lens: Lens, dimension: str, scale: str, band: list | None, known: list[int]) -> dict:
    """How to type a value. Sizes fill a mask from the left, after the digits held; fits fill like a till."""
    unit = lens.shown.unit(dimension, scale)
    places = lens.shown.table[unit]["decimals"]
    whole = len(lens.shown.figure(band[1], unit, 0)) if band else 3
    held = _held(lens, unit, whole + 1 + places, known) if scale == "size" and places > HELD_OPEN else ""
    return {"unit": unit, "label": lens.shown.label(unit), "fill": "left" if scale == "size" else "right",
            "whole": whole, "decimals": places, "held": held}


def _held(lens: Lens, unit: str, length: int, known: list[int]) -> str:
    """The leading digits that all known values share, so that one wrong reading is not held for the next."""
    held = ""
    for i in range(len(known)):
        text = lens.shown.figure(known[i], unit)
        text = "0" * (length - len(text)) + text
        held = text[: length - HELD_OPEN] if i == 0 else _common(held, text)
    return held


def _common(a: str, b: str) -> str:
    for i in range(len(a)):
        if i >= len(b) or a[i] != b[i]:
            return a[:i]
    return a
