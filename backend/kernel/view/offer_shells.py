"""Bearing shells: exchanges and spare halves that bring every clearance in and level."""
from __future__ import annotations

from ..corrections.shells import propose
from ..events import spot_of
from ..fits import current, figure_with, fit_everywhere
from ..limits import limit_of
from ..sorting import merge_sort
from .fit_view import amount
from .lens import Lens, capital
from .offer import counted, offer, offer_row, read_again
from .offer_parts import part_title, shelf_of

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
    """Loose halves whose wall is known: the others cannot be placed."""
    kinds = [lens.procedure["slots"][slot]["part"] for slot in (upper, lower)]
    if kinds[0] == kinds[1]:
        return [{"id": name, "kind": "either"} for name in shelf_of(lens.build, kinds[0])]
    found = [{"id": name, "kind": half} for half, kind in (("upper", kinds[0]), ("lower", kinds[1])) for name in shelf_of(lens.build, kind)]
    return merge_sort(found, lambda half: half["id"])


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
    words = {"title": title, "says": _says(lens, spec, found), "basis": _basis(lens, case, found),
             "again": read_again(lens, lens.procedure["fits"][spec["fit"]]["group"], again)}
    draft = {"type": "parts.put", "body": {"puts": _puts(spec, case, found, again), "why": title}} if moved else None
    return offer(lens, kind, spec["fit"], words, rows, draft, found["cures"])


def _title(lens: Lens, found: dict) -> str:
    if not found["moves"]:
        return lens.say("offer_nothing")
    said = lens.say("shells_then").join([_move(lens, move) for move in found["moves"]])
    return lens.say("shells_try", moves=said) if found["kind"] == "trial" else capital(said)


def _move(lens: Lens, move: dict) -> str:
    what, at = move["what"], move["a"]
    if move["part"]:
        part = part_title(lens, move["part"])
        if what == "pair":
            return lens.say("shells_put", part=part, at=at)
        return lens.say("shells_put_as", part=part, at=at, half=lens.say("shells_" + what))
    return lens.say("shells_exchange_" + what, a=at, b=move["b"])


def _says(lens: Lens, spec: dict, found: dict) -> str:
    if found["kind"] == "trial":
        return lens.say("shells_trial", sum=amount(lens, spec["fit"], found["sum"]))
    moves = counted(lens, len(found["moves"]), "shells_move", "shells_moves")
    if found["cures"]:
        return lens.say("shells_cures" if found["kind"] == "shelf" else "shells_cures_free", moves=moves)
    order = _order(lens, spec, found)
    return lens.say("shells_nearest", moves=moves, order=order) if found["moves"] else order


def _order(lens: Lens, spec: dict, found: dict) -> str:
    wants = []
    for item in found["order"]:
        if item["by"]:
            more = "shells_thicker" if item["by"] > 0 else "shells_thinner"
            wants.append(lens.say(more, at=item["station"], by=amount(lens, spec["fit"], abs(item["by"]))))
    unit = lens.shown.label(lens.shown.unit("length", "fit"))
    return lens.say("shells_order", unit=unit, wants=lens.listed(wants)) if wants else lens.say("shells_measure")


def _basis(lens: Lens, case: dict, found: dict) -> str:
    if found["kind"] == "trial":
        return lens.say("shells_too_few" if case["walls"] or case["rooms"] else "shells_none_read")
    if case["walls"]:
        return lens.say("shells_from_walls")
    return lens.say("shells_from_bare" if case["rooms"] else "shells_from_readings")


def _puts(spec: dict, case: dict, found: dict, stations: list[str]) -> list[dict]:
    out = []
    for station in stations:
        for i, (slot, held) in enumerate(((spec["slots"][0], case["uppers"]), (spec["slots"][1], case["lowers"]))):
            part = found["placing"][station][i]
            if part != held[station]:
                out.append({"slot": slot, "station": station, "parts": [part]})
    return out
