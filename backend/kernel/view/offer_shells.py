"""Bearing shells: exchanges and spare halves that bring every clearance in and level."""
from __future__ import annotations

from ..corrections.shells import propose
from ..events import spot_of
from ..fits import current, figure_with, fit_everywhere
from ..limits import limit_of
from ..sorting import merge_sort
from .fit_view import amount
from .lens import Lens, listed
from .offer import offer, offer_row
from .step_parts import loose_parts

_HALF = {"upper": "upper shell", "lower": "lower shell"}


def shell_offers(lens: Lens, step: dict, spec: dict) -> list[dict]:
    """Best first. Empty while a station waits to be read, and when every clearance is in and level."""
    fits = fit_everywhere(lens.build, spec["fit"])
    if any([fit["value"] is None for fit in fits]):
        return []
    case = lens.build.once(("shell case", step["id"], spec["fit"]), lambda: shell_case(lens, spec))
    proposals = lens.build.once(("shells", step["id"], spec["fit"]), lambda: propose(**case))
    return [_offer(lens, spec, case, fits, found) for found in proposals]


def shell_case(lens: Lens, spec: dict) -> dict:
    """The bench as `corrections.shells.propose` takes it, in nm."""
    build = lens.build
    group = lens.procedure["fits"][spec["fit"]]["group"]
    stations = build.stations(group)
    upper, lower = spec["slots"]
    limit = limit_of(build, lens.procedure["fits"][spec["fit"]]["limit"]) or {"low": None, "high": None, "aim": None}
    level = limit_of(build, lens.procedure["fits"][spec["level"]]["limit"]) if spec.get("level") else None
    return {"stations": stations, "uppers": {s: _held(build, upper, s) for s in stations},
            "lowers": {s: _held(build, lower, s) for s in stations}, "shelf": _shelf(lens, upper, lower),
            "walls": _walls(lens, upper, lower), "rooms": _rooms(lens, spec, stations),
            "readings": _readings(lens, spec, stations), "low": limit["low"], "high": limit["high"], "aim": limit["aim"],
            "level": level["high"] if level else None}


def _held(build, slot: str, station: str) -> str:
    """The half in a slot; an empty slot is named so that nothing read with it is mistaken for another's."""
    parts = build.slot_parts(slot, station)
    return parts[0] if parts else "empty " + spot_of(slot, station)


def _shelf(lens: Lens, upper: str, lower: str) -> list[dict]:
    out = []
    for name in loose_parts(lens.build):
        kind = lens.build.parts[name]["kind"]
        goes = [half for half, slot in (("upper", upper), ("lower", lower)) if lens.procedure["slots"][slot]["part"] == kind]
        if goes:
            out.append({"id": name, "kind": goes[0] if len(goes) == 1 else "either"})
    return out


def _walls(lens: Lens, upper: str, lower: str) -> dict:
    """Every wall that was read: halves in the engine, on the shelf and lying loose after an exchange."""
    kinds = [lens.procedure["slots"][slot]["part"] for slot in (upper, lower)]
    parts = lens.build.parts
    return {name: parts[name]["size"] for name in parts if parts[name]["kind"] in kinds and parts[name]["size"] is not None}


def _rooms(lens: Lens, spec: dict, stations: list[str]) -> dict:
    """Bare housing bore less journal, where both were read."""
    out = {}
    for station in stations if spec.get("bare") else []:
        bare = current(lens.build, spot_of(spec["bare"], station))
        if bare is not None:
            room = figure_with(lens.build, spec["fit"], station, _bore(lens, spec), bare["value"])
            if room is not None:
                out[station] = room
    return out


def _bore(lens: Lens, spec: dict) -> str:
    """The point of the fit that depends on what is in the slots."""
    for name in lens.procedure["fits"][spec["fit"]]["points"]:
        if name in lens.procedure["slots"][spec["slots"][0]]["disturbs"]["points"]:
            return name
    raise KeyError("a point that the shells of “" + spec["fit"] + "” disturb")


def _readings(lens: Lens, spec: dict, stations: list[str]) -> list[dict]:
    """Every reading of the bore with the halves that were in at the time, oldest first."""
    bore = _bore(lens, spec)
    upper, lower = spec["slots"]
    taken = []
    for station in stations:
        for reading in lens.build.readings.get(spot_of(bore, station), []):
            clearance = figure_with(lens.build, spec["fit"], station, bore, reading["value"])
            halves = [(reading["with"].get(slot) or [""])[0] for slot in (upper, lower)]
            if clearance is not None and "" not in halves and not lens.build.is_struck(reading["event"]):
                row = {"station": station, "upper": halves[0], "lower": halves[1], "clearance": clearance}
                taken.append((reading["order"], row))
    return [row for _, row in merge_sort(taken, lambda pair: pair[0])]


def _offer(lens: Lens, spec: dict, case: dict, fits: list[dict], found: dict) -> dict:
    kind = found["kind"]
    moved = list(found["placing"].keys())
    rows = [offer_row(lens, f, found["predicted"].get(f["station"]), f["station"] in moved) for f in fits]
    title = _title(lens, found)
    again = merge_sort(moved, lambda s: case["stations"].index(s))
    words = {"title": title, "says": _says(lens, spec, found), "basis": _basis(case, found),
             "again": _again(lens, spec, again)}
    draft = {"type": "parts.put", "body": {"puts": _puts(spec, case, found, again), "why": title}} if moved else None
    return offer(lens, kind, spec["fit"], words, rows, draft, found["cures"])


def _title(lens: Lens, found: dict) -> str:
    if not found["moves"]:
        return "Nothing on hand cures it"
    said = ", then ".join([_move(lens, move) for move in found["moves"]])
    said = said[:1].upper() + said[1:]
    return "Try: " + said[:1].lower() + said[1:] if found["kind"] == "trial" else said


def _move(lens: Lens, move: dict) -> str:
    if move["part"]:
        half = "" if move["what"] == "pair" else " as " + _HALF[move["what"]]
        return "put “" + lens.build.parts[move["part"]]["title"] + "” in at " + move["a"] + half
    what = "shells" if move["what"] == "pair" else _HALF[move["what"]] + "s"
    return "exchange the " + what + " of " + move["a"] + " and " + move["b"]


def _says(lens: Lens, spec: dict, found: dict) -> str:
    if found["kind"] == "trial":
        return ("What one gains the other loses: the two stay at " + amount(lens, spec["fit"], found["sum"])
                + " together. Reading both again tells how the walls differ.")
    count = len(found["moves"])
    moves = "One move" if count == 1 else str(count) + " moves"
    if found["cures"]:
        bought = "" if found["kind"] == "shelf" else ", nothing to buy"
        return moves + bought + ". All in and level."
    order = _order(lens, spec, found)
    return (moves + " come nearest, not all in and level. " if count else "") + order


def _order(lens: Lens, spec: dict, found: dict) -> str:
    wants = []
    for item in found["order"]:
        if item["by"]:
            more = "thicker" if item["by"] > 0 else "thinner"
            wants.append("at " + item["station"] + " " + amount(lens, spec["fit"], abs(item["by"])) + " " + more)
    unit = lens.shown.label(lens.shown.unit("length", "fit"))
    return "To order, both walls together (" + unit + "): " + listed(wants) + "." if wants else "Measure the walls to learn more."


def _basis(case: dict, found: dict) -> str:
    if found["kind"] == "trial":
        read = "Too few walls or bare housings have" if case["walls"] or case["rooms"] else "No wall or bare housing has"
        return read + " been read, so nobody can tell beforehand."
    if case["walls"]:
        return "Worked out from your wall readings."
    if case["rooms"]:
        return "Worked out from the bare housing bores."
    return "Worked out from what the readings before and after each exchange taught."


def _again(lens: Lens, spec: dict, stations: list[str]) -> str:
    if not stations:
        return ""
    title = lens.procedure["groups"][lens.procedure["fits"][spec["fit"]]["group"]]["title"]
    return title[:1].upper() + title[1:] + " " + listed(stations) + " will want reading again."


def _puts(spec: dict, case: dict, found: dict, stations: list[str]) -> list[dict]:
    out = []
    for station in stations:
        for i, (slot, held) in enumerate(((spec["slots"][0], case["uppers"]), (spec["slots"][1], case["lowers"]))):
            part = found["placing"][station][i]
            if part != held[station]:
                out.append({"slot": slot, "station": station, "parts": [part]})
    return out
