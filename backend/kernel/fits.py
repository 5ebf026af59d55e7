"""A fit at a station: its figure, its verdict, whether its gate is open.

Law: a gate opens only on a figure that is read, fresh, undisputed and in, or on a concession for exactly that figure.
"""
from __future__ import annotations

from .events import spot_of
from .formula import CONTRARY, NOT_READ, READ, STALE, nothing, reading, work_out
from .limits import is_set, limit_of
from .verdict import IN, judge

NO_LIMIT = "no_limit"


def spot_state(build, spot: str) -> str:
    """not_read, stale, contrary or read."""
    heads = build.heads.get(spot, [])
    if not heads:
        return NOT_READ
    fresh = [h for h in heads if h["stale"] is None]
    if not fresh:
        return STALE
    return CONTRARY if any([h["value"] != fresh[0]["value"] for h in fresh]) else READ


def current(build, spot: str) -> dict | None:
    """The reading that counts at a spot: the latest, a fresh one before a stale one."""
    heads = build.heads.get(spot, [])
    fresh = [h for h in heads if h["stale"] is None]
    heads = fresh or heads
    return heads[len(heads) - 1] if heads else None


def figure(build, fit_name: str, station: str) -> dict:
    """The figure of a fit (shape: formula.work_out); value in base units, None unless state is `read`."""
    return build.once(("figure", fit_name, station), lambda: figure_if(build, fit_name, station, {}))


def figure_if(build, fit_name: str, station: str, changes: dict[str, int]) -> dict:
    """What a fit would be, were some readings or part sizes others: `changes` by spot (`bore@3`) or `size:piston@3`.

    With no changes it is what the fit is. Raises KeyError for a fit that the procedure has not.
    """
    def source(node: list, at: str | None):
        kind, name = node[0], node[1]
        if at is None:
            return [source(node, each) for each in build.stations(_group(build, kind, name))]
        place = at if _group(build, kind, name) else ""
        if kind == "fit":
            return figure_if(build, name, place, changes) if _touched(build, name, changes) else figure(build, name, place)
        key = _leaf_key(node, place)
        return reading(key, changes[key], 0) if key in changes else _leaf_at(build, node, place, key)
    return work_out(build.procedure["fits"][fit_name]["tree"], station, source)


def _touched(build, fit_name: str, changes: dict[str, int]) -> bool:
    """Whether a fit rests on something that is supposed to be other than it is."""
    spec = build.procedure["fits"][fit_name]
    for key in changes:
        name = key.replace("size:", "").partition("@")[0]
        if name in spec["points"] or name in (spec.get("sizes") or []):
            return True
    return False


def _group(build, kind: str, name: str) -> str:
    if kind == "choice":
        return ""
    table = {"point": "points", "fit": "fits", "size": "slots"}[kind]
    return build.procedure[table][name]["group"]


def _leaf_key(node: list, place: str) -> str:
    if node[0] == "point":
        return spot_of(node[1], place)
    return "size:" + spot_of(node[1], place) if node[0] == "size" else "choice:" + node[1] + "." + node[2]


def _leaf_at(build, node: list, place: str, key: str) -> dict:
    if node[0] == "point":
        return point_at(build, key)
    if node[0] == "size":
        return _size_at(build, node[1], place, key)
    chosen = build.choices.get(node[1])
    if chosen is None:
        return nothing(NOT_READ)
    return reading(key, chosen["values"][node[2]], 0)


def _size_at(build, slot: str, place: str, key: str) -> dict:
    """The sizes of the parts in a slot, added up; an empty slot that holds one part has no size."""
    names = build.slot_parts(slot, place)
    sizes = [build.parts[name]["size"] for name in names if name in build.parts and build.parts[name]["size"] is not None]
    if len(sizes) < len(names) or (not names and build.procedure["slots"][slot]["holds"] == "one"):
        return nothing(NOT_READ)
    return reading(key, sum(sizes), 0)


def point_at(build, spot: str) -> dict:
    """The figure of one spot; value None unless it can be relied on."""
    state = spot_state(build, spot)
    found = current(build, spot)
    if found is None or state != READ:
        return nothing(state)
    return reading(spot, found["value"], (found["step"] + 1) // 2)


def figure_with(build, fit_name: str, station: str, point: str, value: int) -> int | None:
    """What a fit would be were `point` at this station to read `value`; None while another reading it needs is not there."""
    at = station if build.procedure["points"][point]["group"] else ""
    return figure_if(build, fit_name, station, {spot_of(point, at): value})["value"]


def fit_at(build, fit_name: str, station: str) -> dict:
    """Everything about one fit at one station.

    `{fit, station, state, value, tells, limit, by, end, close, conceded, open}`; state: in, under, over, not_read, stale, contrary, no_figure
    (the readings cannot be right together), no_limit (the limit waits for a choice or a size).
    """
    return build.once(("fit", fit_name, station), lambda: _fit_at(build, fit_name, station))


def _fit_at(build, fit_name: str, station: str) -> dict:
    found = figure(build, fit_name, station)
    name = build.procedure["fits"][fit_name]["limit"]
    limit = limit_of(build, name, station)
    out = {"fit": fit_name, "station": station, "state": found["state"], "value": found["value"], "tells": found["step"],
           "limit": limit, "by": 0, "end": "", "close": False}
    if found["state"] == READ and limit is None and is_set(build, name):
        out["state"] = NO_LIMIT
    elif found["state"] == READ:
        low, high = (limit["low"], limit["high"]) if limit else (None, None)
        verdict = judge(found["value"], low, high, found["step"])
        out.update({"state": verdict["verdict"], "by": verdict["by"], "end": verdict["end"], "close": verdict["close"]})
    out["conceded"] = _conceded(build, out)
    out["open"] = out["state"] == IN or out["conceded"]
    return out


def _conceded(build, fit: dict) -> bool:
    """A concession holds for the very figure it named (None: not read at all), and never for a stale one."""
    if fit["state"] in (IN, STALE, CONTRARY):
        return False
    for c in build.concessions:
        if c["counts"] and c["fit"] == fit["fit"] and c["station"] == fit["station"] and c["value"] == fit["value"]:
            return True
    return False


def fit_everywhere(build, fit_name: str) -> list[dict]:
    """The fit at each of its stations, in plan order."""
    return [fit_at(build, fit_name, s) for s in build.stations(build.procedure["fits"][fit_name]["group"])]
