"""Every part of the build: where it sits, where it came from, what it cost; and what still lies loose.

Law: a part is told by its own name or mark; one that came in a place and was never named is told by that place.
"""
from __future__ import annotations

from ..apply.parts import part_of
from ..order import corrections_of
from ..quantity import write
from ..sorting import merge_sort
from .entries import keypad
from .lens import Lens
from .step_parts import loose_parts, part_scale

_CENTS = {"num": 100, "den": 1}


def parts_view(lens: Lens) -> dict:
    """PartsView of types.ts: places in the order of the procedure, loose parts, kinds that may be added, cost in all."""
    places = [_place(lens, slot, station, phase) for slot, phase in _slots_in_order(lens.procedure)
              for station in lens.build.stations(lens.procedure["slots"][slot]["group"])]
    return {"places": places, "loose": [_part(lens, name) for name in loose_parts(lens.build)], "kinds": _kinds(lens),
            "cost": _costs(lens)}


def _slots_in_order(procedure: dict) -> list[tuple[str, str]]:
    """Slots as the steps come to them, each with its phase in words; then the rest by name, with none."""
    phases = {phase["id"]: phase["title"] for phase in procedure["phases"]}
    found: dict[str, bool] = {}
    out: list[tuple[str, str]] = []
    for step in procedure["steps"]:
        for name in _used(step):
            if name not in found:
                found[name] = True
                out.append((name, phases.get(step["phase"], "")))
    rest = merge_sort([name for name in procedure["slots"] if name not in found], lambda name: name)
    return out + [(name, "") for name in rest]


def _used(step: dict) -> list[str]:
    """The slots whose parts a step fits, measures or exchanges."""
    out: list[str] = []
    for record in corrections_of(step):
        out = out + [name for name in [record.get("slot") or ""] + (record.get("slots") or []) if name]
    return out + list(step["may_measure"])


def _place(lens: Lens, slot_name: str, station: str, phase: str) -> dict:
    slot = lens.procedure["slots"][slot_name]
    at = lens.station_title(slot["group"], station)
    return {"slot": slot_name, "station": station, "title": slot["title"] + (", " + at if at else ""), "kind": slot["part"],
            "phase": phase, "holds": slot["holds"], "must": bool(slot.get("must")), "own": bool(slot.get("own")),
            "parts": [_part(lens, name) for name in lens.build.slot_parts(slot_name, station)]}


def _part(lens: Lens, name: str) -> dict:
    part = part_of(lens.build, name)
    kind = lens.procedure["parts"][part["kind"]]
    about = part["about"]
    size = "" if part["size"] is None else lens.shown.own(part["size"], kind["dimension"], part_scale(lens.procedure, part["kind"]))
    return {"id": name, "kind": part["kind"], "title": lens.part_title(part), "size": size, "named": name in lens.build.parts or bool(about["mark"]),
            "mark": about["mark"], "state": about["state"], "condition": about["condition"], "cost": _money(about["cost"]),
            "belongs": about["belongs"], "belongs_title": _belongs(lens, about["belongs"]),
            "draft": {"type": "part.noted", "body": {"part": name}}}


def _belongs(lens: Lens, spot: dict | None) -> str:
    if spot is None or spot["slot"] not in lens.procedure["slots"]:
        return ""
    slot = lens.procedure["slots"][spot["slot"]]
    at = lens.station_title(slot["group"], spot["station"])
    return slot["title"] + (", " + at if at else "")


def _money(cost: dict | None) -> str:
    return "" if cost is None else write(cost["value"], _CENTS, 2) + " " + cost["unit"]


def _costs(lens: Lens) -> list[str]:
    """What all parts cost together, one figure for each currency."""
    sums: dict[str, int] = {}
    for name in lens.build.notes:
        cost = lens.build.notes[name]["cost"]
        if cost is not None:
            sums[cost["unit"]] = sums.get(cost["unit"], 0) + cost["value"]
    out = []
    while sums:
        unit = min(sums.keys())
        out.append(_money({"value": sums.pop(unit), "unit": unit}))
    return out


def _kinds(lens: Lens) -> list[dict]:
    out: list[dict] = []
    for slot, _phase in _slots_in_order(lens.procedure):
        kind = lens.procedure["slots"][slot]["part"]
        if kind not in [k["kind"] for k in out]:
            spec = lens.procedure["parts"][kind]
            out.append({"kind": kind, "title": spec["title"], "measures": spec["measures"],
                        "keypad": keypad(lens, spec["dimension"], part_scale(lens.procedure, kind), spec["band"], [])})
    return out
