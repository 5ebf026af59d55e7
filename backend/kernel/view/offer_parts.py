"""Parts for corrections: what sits in a slot, what lies on the shelf, and in what words."""
from __future__ import annotations

from ..events import spot_of
from .lens import Lens
from .step_parts import loose_parts, part_scale


def shelf_of(build, kind: str) -> list[str]:
    """Ids of the measured parts of a kind that sit in no slot, in order of id."""
    parts = build.parts
    return [name for name in loose_parts(build) if parts[name]["kind"] == kind and parts[name]["size"] is not None]


def size_of(build, name: str) -> int | None:
    return build.parts[name]["size"] if name in build.parts else None


def known_size(build, name: str) -> int:
    """The size of a part that is known to be measured."""
    return build.parts[name]["size"]


def only_part(build, slot: str, station: str) -> str | None:
    """The one part in a slot when its size is known, else None."""
    names = build.slot_parts(slot, station)
    return names[0] if len(names) == 1 and size_of(build, names[0]) is not None else None


def part_title(lens: Lens, name: str) -> str:
    return lens.say("quoted", title=lens.part_title(lens.build.parts[name]))


def size_words(lens: Lens, slot: str, size: int) -> str:
    """A part size with its unit, as parts of this slot are spoken of."""
    kind = lens.procedure["slots"][slot]["part"]
    return lens.shown.own(size, lens.procedure["parts"][kind]["dimension"], part_scale(lens.procedure, kind))


def size_both(lens: Lens, slot: str, size: int) -> str:
    """A part size in both systems, for parts that are sold in sizes of the other one."""
    kind = lens.procedure["slots"][slot]["part"]
    beside = lens.shown.beside(size, lens.procedure["parts"][kind]["dimension"], "size")
    return size_words(lens, slot, size) + (" (" + beside[0] + ")" if beside else "")


def put(slot: str, station: str, parts: list[str]) -> dict:
    return {"slot": slot, "station": station, "parts": parts}


def puts_draft(puts: list[dict], title: str) -> dict | None:
    """The event to append once the parts have been moved; None when none were."""
    return {"type": "parts.put", "body": {"puts": puts, "why": title}} if puts else None


def size_key(slot: str, station: str) -> str:
    """The name that `fits.figure_if` gives to what a slot holds."""
    return "size:" + spot_of(slot, station)
