"""What a reading would mean, before it is stored.

Law: nothing is refused and nothing typed is lost. An absurd figure asks once: outside the physical band, or ten times the
last reading here or at a neighbour.
"""
from __future__ import annotations

from ..events import quantity_of, spot_of
from ..fits import current
from ..apply.parts import part_of
from ..sentence import BadNumber
from ..show import scale_of
from .lens import Lens

TIMES = 8


def weigh(lens: Lens, draft: dict) -> dict:
    """`{ask, shown, other, error}`: a question to put once, the value in this person's units, or why it is not a number."""
    body = draft["body"]
    spec, scale, near = _subject(lens, draft)
    out = {"ask": "", "shown": "", "other": "", "error": ""}
    try:
        value = quantity_of(body["text"], body["unit"], spec["dimension"], lens.shown.table)["value"]
    except BadNumber as error:
        out["error"] = lens.say(error.key, **error.parts)
        return out
    out["shown"] = lens.shown.own(value, spec["dimension"], scale)
    out["other"] = " · ".join(lens.shown.beside(value, spec["dimension"], scale))
    out["ask"] = _question(lens, out["shown"], value, spec, scale, near)
    return out


def _subject(lens: Lens, draft: dict) -> tuple[dict, str, list[int]]:
    """What is read: its specification, its scale, and readings to compare with."""
    body = draft["body"]
    if draft["type"] == "part.measured":
        part = part_of(lens.build, body["part"])
        return lens.procedure["parts"][part["kind"]], "size", [part["size"]] if part["size"] else []
    point = lens.procedure["points"][body["point"]]
    return point, scale_of(point), _near(lens, body["point"], lens.build.stations(point["group"]), body.get("station") or "")


def _near(lens: Lens, point: str, stations: list[str], station: str) -> list[int]:
    """The last reading here, else the nearest before; and the nearest after. A log may rise tenfold from end to end."""
    here = stations.index(station) if station in stations else 0
    out = []
    for way in (range(here, -1, -1), range(here + 1, len(stations))):
        for i in way:
            reading = current(lens.build, spot_of(point, stations[i]))
            if reading is not None:
                out.append(reading["value"])
                break
    return out


def _question(lens: Lens, shown: str, value: int, spec: dict, scale: str, near: list[int]) -> str:
    band = spec["band"]
    if band and not band[0] <= value <= band[1]:
        low, high = [lens.shown.own(end, spec["dimension"], scale) for end in band]
        return lens.say("outside_band", shown=shown, low=low, high=high)
    for other in near:
        if other and (abs(value) >= TIMES * abs(other) or TIMES * abs(value) <= abs(other)):
            return lens.say("ten_times", shown=shown, other=lens.shown.own(other, spec["dimension"], scale))
    return ""
