"""Turns of an adjusting screw that bring a fit to its aim."""
from __future__ import annotations

from ..corrections.turns import MILLION, turns
from ..corrections.within import target
from ..fits import fit_everywhere
from .lens import Lens, listed
from .offer import misfits_of, offer, offer_row, read_again



def turn_offers(lens: Lens, step: dict, spec: dict) -> list[dict]:
    """One offer for every station that is out, read, and whose ratio is known."""
    fits = fit_everywhere(lens.build, spec["fit"])
    found = {}
    for fit in misfits_of(fits):
        ratio = _ratio(lens.build, spec, fit["station"])
        if ratio is not None and target(fit["limit"]) is not None:
            found[fit["station"]] = turns(fit["value"], fit["limit"], _pitch(spec), ratio)
    return [_offer(lens, spec, fits, found)] if found else []


def _pitch(spec: dict) -> int:
    """Turning in takes a figure down (lash) unless the correction says that it brings it up (preload)."""
    return -spec["pitch"] if spec.get("moves") == "up" else spec["pitch"]


def _ratio(build, spec: dict, station: str) -> int | None:
    """What the figure moves by for each unit of the screw, in millionths; None while it is not read."""
    name = spec.get("ratio")
    if not name:
        return MILLION
    value = build.figure_of("point" if name in build.procedure["points"] else "fit", name, station)["value"]
    return value if value is not None and value > 0 else None


def _offer(lens: Lens, spec: dict, fits: list[dict], found: dict) -> dict:
    rows = [offer_row(lens, f, found[f["station"]]["figure"] if f["station"] in found else f["value"], f["station"] in found) for f in fits]
    stations = [fit["station"] for fit in fits if fit["station"] in found]
    said = [(s + " " if s else "") + _turn(found[s]) for s in stations]
    words = {"title": "Turn the screw: " + listed(said), "says": "In is tighter. Lock it, then read: locking moves it.",
             "again": read_again(lens, lens.procedure["fits"][spec["fit"]]["group"], stations),
             "basis": "Worked out from the pitch of the screw" + (" and the ratio read." if spec.get("ratio") else ".")}
    cures = all([found[s]["cures"] for s in stations]) and len(stations) == len(misfits_of(fits))
    return offer(lens, "turns", spec["fit"], words, rows, None, cures)


def _turn(found: dict) -> str:
    """`in 95°`, `out 1 turn and 30°`, `in half a turn`."""
    whole, rest = found["degrees"] // 360, found["degrees"] % 360
    if not found["degrees"]:
        return "stays: nearer than a hand can turn"
    parts = (["1 turn"] if whole == 1 else [str(whole) + " turns"] if whole else []) + ([str(rest) + "°"] if rest else [])
    return found["way"] + " " + listed(parts)
