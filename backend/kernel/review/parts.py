"""Parts that cannot be where the record has them, that were run in with another seat, or that nobody has named."""
from __future__ import annotations

from ..apply.parts import part_of
from ..order import statuses
from ..sorting import merge_sort
from ..view.lens import Lens, capital
from .finding import LOOK, NOTE, finding
from .misfit import quoted


def findings(lens: Lens) -> list[dict]:
    places = _places(lens)
    return _in_two_places(lens, places) + _with_another_seat(lens, places) + _missing(lens)


def _places(lens: Lens) -> list[dict]:
    """Every part where it is recorded: `{part, slot, station}`."""
    out = []
    for slot in _slots(lens):
        for station in lens.build.stations(lens.procedure["slots"][slot]["group"]):
            out = out + [{"part": part, "slot": slot, "station": station} for part in lens.build.slot_parts(slot, station)]
    return out


def _slots(lens: Lens) -> list[str]:
    return merge_sort(list(lens.procedure["slots"].keys()), lambda name: name)


def _in_two_places(lens: Lens, places: list[dict]) -> list[dict]:
    found: dict[str, list[dict]] = {}
    order = []
    for place in places:
        if place["part"] not in found:
            order.append(place["part"])
        found.setdefault(place["part"], []).append(place)
    return [_two_places(lens, part, found[part]) for part in order if len(found[part]) > 1]


def _two_places(lens: Lens, part: str, places: list[dict]) -> dict:
    at = lens.listed([lens.spot_title("slots", p["slot"], p["station"]) for p in places])
    says = lens.say("two_places", part=_named(lens, part), count=len(places), places=at)
    return finding("parts", LOOK, says, lens.say("why_two_places"), lens.say("cure_two_places"), "", "", places[0]["station"])


def _with_another_seat(lens: Lens, places: list[dict]) -> list[dict]:
    out = []
    for place in places:
        own = lens.procedure["slots"][place["slot"]].get("own")
        seat = _seat(lens, place["part"]) if own else None
        if seat is not None and (seat["slot"], seat["station"]) != (place["slot"], place["station"]):
            out.append(_other_seat(lens, place, seat))
    return out


def _other_seat(lens: Lens, place: dict, seat: dict) -> dict:
    home = lens.spot_title("slots", seat["slot"], seat["station"])
    here = lens.spot_title("slots", place["slot"], place["station"])
    says = lens.say("other_seat", part=_named(lens, place["part"]), home=home, here=here)
    return finding("parts", LOOK, says, lens.say("why_other_seat"), lens.say("cure_other_seat"), "", "", place["station"])


def _seat(lens: Lens, part: str) -> dict | None:
    """Where a part belongs: as noted; a used one that came with a slot belongs there."""
    about = lens.build.notes.get(part) or {}
    slot, _, station = part.partition("@")
    if not about.get("belongs") and about.get("state") == "used":
        return {"slot": slot, "station": station} if _is_seat(lens, slot, station) else None
    noted = about.get("belongs")
    if not isinstance(noted, dict):
        return None
    return noted if _is_seat(lens, noted.get("slot"), noted.get("station")) else None


def _is_seat(lens: Lens, slot, station) -> bool:
    """Whether there is such a place; a note may say anything."""
    if not isinstance(slot, str) or not isinstance(station, str):
        return False
    return slot in lens.procedure["slots"] and station in lens.build.stations(lens.procedure["slots"][slot]["group"])


def _missing(lens: Lens) -> list[dict]:
    """Slots the engine cannot do without, where nothing is in or what is in has no name; one finding a slot."""
    out = []
    for name in _slots(lens):
        slot = lens.procedure["slots"][name]
        if not slot.get("must"):
            continue
        stations = lens.build.stations(slot["group"])
        empty = [s for s in stations if not lens.build.slot_parts(name, s)]
        unnamed = [s for s in stations if s not in empty and not any([_has_name(lens, p) for p in lens.build.slot_parts(name, s)])]
        step = _begun_with(lens, name)
        if step:
            out = out + _unfilled(lens, name, empty, "slot_empty", LOOK, step) + _unfilled(lens, name, unnamed, "slot_unnamed", NOTE, step)
    return out


def _unfilled(lens: Lens, name: str, stations: list[str], how: str, level: str, step: dict) -> list[dict]:
    if not stations:
        return []
    slot = lens.procedure["slots"][name]
    at = ", " + lens.procedure["groups"][slot["group"]]["title"] + " " + lens.listed(stations) if slot["group"] else ""
    says = lens.say(how, slot=capital(slot["title"]) + at, step=quoted(lens, step))
    return [finding("parts", level, says, lens.say("why_slot"), lens.say("cure_slot"), step["id"], "",
                    stations[0] if len(stations) == 1 else "")]


def _begun_with(lens: Lens, slot_name: str) -> dict | None:
    """The first step with work done that relies on a slot; any step with work done where none relies on it."""
    slot = lens.procedure["slots"][slot_name]
    relying = [step["id"] for step in lens.procedure["steps"] if _relies(step, slot_name, slot)]
    for row in statuses(lens.build):
        if (not relying or row["id"] in relying) and any([w["state"] != "not_read" for w in row["work"]]):
            return lens.build.steps[row["id"]]
    return None


def _relies(step: dict, slot_name: str, slot: dict) -> bool:
    if step["id"] in slot["disturbs"]["steps"] or slot_name in step["may_measure"]:
        return True
    return any([point in slot["disturbs"]["points"] for point in step["reads"]])


def _has_name(lens: Lens, part: str) -> bool:
    """Put on the bench under a name, or marked later."""
    if (lens.build.notes.get(part) or {}).get("mark"):
        return True
    slot, _, station = part.partition("@")
    return part in lens.build.parts and not _is_seat(lens, slot, station)


def _named(lens: Lens, part: str) -> str:
    """A part's title and mark, as a sentence begins with it."""
    title = lens.part_title(part_of(lens.build, part))
    mark = (lens.build.notes.get(part) or {}).get("mark") or ""
    return capital(title) + (" (" + mark + ")" if mark else "")
