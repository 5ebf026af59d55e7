"""The parts a step is about: what is in its slots, and what is on the shelf for them."""
from __future__ import annotations

from ..apply.parts import part_of
from ..order import corrections_of
from ..sorting import merge_sort
from .entries import keypad
from .lens import Lens


def slot_views(lens: Lens, step: dict) -> list[dict]:
    out = []
    for name in _slot_names(step):
        slot = lens.procedure["slots"][name]
        for station in lens.build.stations(slot["group"]):
            at = lens.station_title(slot["group"], station)
            title = slot["title"] + (", " + at if at else "")
            out.append({"slot": name, "station": station, "kind": slot["part"], "holds": slot["holds"], "title": title,
                        "parts": [_part(lens, p) for p in lens.build.slot_parts(name, station)]})
    return out


def shelf(lens: Lens, step: dict) -> list[dict]:
    """Parts on the bench, of the kinds this step's slots take, that no slot holds."""
    kinds = [lens.procedure["slots"][name]["part"] for name in _slot_names(step)]
    out = []
    for name in loose_parts(lens.build):
        if lens.build.parts[name]["kind"] in kinds:
            part = _part(lens, name)
            part["kind"] = lens.build.parts[name]["kind"]
            out.append(part)
    return out


def _slot_names(step: dict) -> list[str]:
    names = list(step["may_measure"])
    for record in corrections_of(step):
        for name in [record.get("slot") or ""] + (record.get("slots") or []) + (record.get("down") or []) + (record.get("up") or []):
            if name and name not in names:
                names.append(name)
    return names


def _part(lens: Lens, name: str) -> dict:
    part = part_of(lens.build, name)
    kind = lens.procedure["parts"][part["kind"]]
    scale = part_scale(lens.procedure, part["kind"])
    size = "" if part["size"] is None else lens.shown.own(part["size"], kind["dimension"], scale)
    return {"id": name, "title": lens.part_title(part), "size": size}


def kinds(lens: Lens, step: dict) -> list[dict]:
    """The kinds of part that may be put on the shelf here, each with the keypad for its size."""
    out, seen = [], []
    for name in _slot_names(step):
        kind = lens.procedure["slots"][name]["part"]
        if kind not in seen:
            seen.append(kind)
            spec = lens.procedure["parts"][kind]
            pad = keypad(lens, spec["dimension"], part_scale(lens.procedure, kind), spec["band"], [])
            out.append({"kind": kind, "title": spec["title"], "measures": spec["measures"], "keypad": pad})
    return out


def part_scale(procedure: dict, kind: str) -> str:
    """Parts that are stacked (shims) are spoken of like a clearance; others like a size."""
    for name in procedure["slots"]:
        slot = procedure["slots"][name]
        if slot["part"] == kind and slot["holds"] == "many":
            return "fit"
    return "size"


def loose_parts(build) -> list[str]:
    """Ids of parts that no slot holds, in order of id."""
    fitted = fitted_parts(build)
    return [name for name in merge_sort(list(build.parts.keys()), lambda k: k) if name not in fitted]


def fitted_parts(build) -> dict:
    """Every part that sits somewhere, those that came with a slot included, each as a key."""
    return build.once("fitted parts", lambda: _fitted(build))


def _fitted(build) -> dict:
    slots = build.procedure["slots"]
    return {part: True for name in slots for station in build.stations(slots[name]["group"])
            for part in build.slot_parts(name, station)}
