"""Turns of an adjusting screw that bring a fit to its aim."""
from __future__ import annotations

from ..corrections.turns import MILLION, ROUND, turns
from ..corrections.within import target
from ..fits import fit_everywhere
from .lens import Lens
from .offer import counted, misfits_of, offer, offer_row, read_again



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
    said = [(s + " " if s else "") + _turn(lens, found[s]) for s in stations]
    words = {"title": lens.say("turns_title", turns=lens.listed(said)), "says": lens.say("turns_says"),
             "again": read_again(lens, lens.procedure["fits"][spec["fit"]]["group"], stations),
             "basis": lens.say("turns_basis_ratio" if spec.get("ratio") else "turns_basis")}
    cures = all([found[s]["cures"] for s in stations]) and len(stations) == len(misfits_of(fits))
    return offer(lens, "turns", spec["fit"], words, rows, None, cures)


def _turn(lens: Lens, found: dict) -> str:
    """`in 95°`, `out 1 turn and 30°`."""
    whole, rest = found["degrees"] // ROUND, found["degrees"] % ROUND
    if not found["degrees"]:
        return lens.say("turns_stays")
    parts = ([counted(lens, whole, "turns_one", "turns_many")] if whole else []) + ([str(rest) + "°"] if rest else [])
    return lens.say("turns_in" if found["way"] == "in" else "turns_out", by=lens.listed(parts))
