"""A fit at a station: its figure, its verdict, whether its gate is open.

Law: a gate opens only on a figure that is read, fresh, undisputed and in, or on a concession for exactly that figure.
"""
from __future__ import annotations

from .events import spot_of
from .formula import CONTRARY, NOT_READ, READ, STALE, work_out
from .limits import limit_of
from .verdict import IN, judge


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
    """`{"state", "value", "step"}` of a fit; value in base units, None unless state is `read`."""
    return build.once(("figure", fit_name, station), lambda: _figure(build, fit_name, station))


def _figure(build, fit_name: str, station: str) -> dict:
    def source(kind: str, name: str, at: str | None):
        table = build.procedure["points"] if kind == "point" else build.procedure["fits"]
        group = table[name]["group"]
        if at is None:
            return [source(kind, name, each) for each in build.stations(group)]
        place = at if group else ""
        return point_at(build, spot_of(name, place)) if kind == "point" else figure(build, name, place)
    return work_out(build.procedure["fits"][fit_name]["tree"], station, source)


def point_at(build, spot: str) -> dict:
    """`{"state", "value", "step"}` of one spot; value None unless it can be relied on."""
    state = spot_state(build, spot)
    reading = current(build, spot)
    if reading is None or state != READ:
        return {"state": state, "value": None, "step": 0}
    return {"state": READ, "value": reading["value"], "step": (reading["step"] + 1) // 2}


def figure_with(build, fit_name: str, station: str, point: str, value: int) -> int | None:
    """What a fit would be were `point` at this station to read `value`; None while another reading it needs is not there."""
    def source(kind: str, name: str, at: str | None) -> dict:
        if name == point:
            return {"state": READ, "value": value, "step": 0}
        return point_at(build, spot_of(name, at if at and build.procedure["points"][name]["group"] else ""))
    return work_out(build.procedure["fits"][fit_name]["tree"], station, source)["value"]


def fit_at(build, fit_name: str, station: str) -> dict:
    """Everything about one fit at one station.

    `{fit, station, state, value, tells, limit, by, end, close, conceded, open}`; state: in, under, over, not_read, stale, contrary.
    """
    return build.once(("fit", fit_name, station), lambda: _fit_at(build, fit_name, station))


def _fit_at(build, fit_name: str, station: str) -> dict:
    found = figure(build, fit_name, station)
    limit = limit_of(build, build.procedure["fits"][fit_name]["limit"])
    out = {"fit": fit_name, "station": station, "state": found["state"], "value": found["value"], "tells": found["step"],
           "limit": limit, "by": 0, "end": "", "close": False}
    if found["state"] == READ:
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
