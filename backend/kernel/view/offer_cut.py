"""An order to the machine shop: what a point must come to so that its fit is at its aim."""
from __future__ import annotations

from ..corrections.cut import DOWN, cut
from ..corrections.within import excess
from ..events import spot_of
from ..fits import figure_if, fit_everywhere, point_at
from ..show import scale_of
from .lens import Lens, capital
from .offer import counted, misfits_of, offer, offer_row, unread
from .offer_reach import figures_at, reach

def cut_offers(lens: Lens, step: dict, spec: dict) -> list[dict]:
    """One order for all stations that are out. Empty while one of them waits to be read, and when all are in."""
    fits = fit_everywhere(lens.build, spec["fit"])
    if not misfits_of(fits):
        return []
    point_group = lens.procedure["points"][spec["point"]]["group"]
    fit_group = lens.procedure["fits"][spec["fit"]]["group"]
    if point_group and not fit_group:
        cuts = _all_alike(lens.build, spec, fits[0])
    elif point_group:
        cuts = [_cut(lens.build, spec, [fit], fit["station"]) for fit in misfits_of(fits)]
    else:
        cuts = [] if unread(fits) else [_cut(lens.build, spec, fits, "")]
    cuts = [c for c in cuts if c["reads"] is not None]
    return [_offer(lens, spec, fits, cuts)] if cuts else []


def _cut(build, spec: dict, fits: list[dict], station: str) -> dict:
    """`{station, reads, to, why, after: {station: figure}}` of one place of the point."""
    key = spot_of(spec["point"], station)
    reads = point_at(build, key)["value"]
    out = {"station": station, "reads": reads, "to": None, "why": "held", "after": {}}
    figures = None if reads is None else figures_at(build, fits, key, None)
    if figures is None:
        return out
    out["why"] = cut(reads, figures, spec["moves"])["why"]
    if out["why"]:
        return out
    found = reach(build, fits, key, reads, lambda size, near: cut(reads, near, spec["moves"], size)["to"])
    out["why"] = "" if found else "apart"
    if found:
        out["to"] = found["size"]
        out["after"] = {fits[i]["station"]: found["values"][i] for i in range(len(fits))}
    return out


def _all_alike(build, spec: dict, fit: dict) -> list[dict]:
    """A figure over all stations (a spread): every place is cut to the one that needs the least metal off the others."""
    stations = build.stations(build.procedure["points"][spec["point"]]["group"])
    reads = [point_at(build, spot_of(spec["point"], s))["value"] for s in stations]
    if None in reads:
        return []
    to = min(reads) if spec["moves"] == DOWN else max(reads)
    value = figure_if(build, spec["fit"], "", {spot_of(spec["point"], s): to for s in stations})["value"]
    cures = value is not None and not excess(value, fit["limit"] or {})
    return [{"station": stations[i], "reads": reads[i], "to": to if cures else None, "why": "" if cures else "held", "after": {"": value}}
            for i in range(len(stations)) if reads[i] != to or not cures]


def _offer(lens: Lens, spec: dict, fits: list[dict], cuts: list[dict]) -> dict:
    done = [c for c in cuts if c["to"] is not None]
    after: dict = {}
    for c in done:
        after = after | c["after"]
    rows = [offer_row(lens, fit, after.get(fit["station"], fit["value"]), fit["station"] in after) for fit in fits]
    cures = len(done) == len(cuts)
    words = {"title": _title(lens, spec, done), "says": _says(lens, spec, done, [c for c in cuts if c["to"] is None]),
             "basis": lens.say("cut_basis" if done else "cut_none_basis"), "again": _again(lens, spec, done)}
    return offer(lens, "cut" if done else "none", spec["fit"], words, rows, None, cures)


def _title(lens: Lens, spec: dict, cuts: list[dict]) -> str:
    group = lens.procedure["points"][spec["point"]]["group"]
    if not cuts:
        return lens.say("cut_none")
    if not group:
        return capital(spec["by"])
    where = lens.procedure["groups"][group]["title"] + " " + lens.listed([c["station"] for c in cuts])
    return lens.say("cut_title", work=capital(spec["by"]), where=where)


def _says(lens: Lens, spec: dict, done: list[dict], left: list[dict]) -> str:
    point = lens.procedure["points"][spec["point"]]
    orders = []
    for c in done:
        by = lens.shown.own(abs(c["to"] - c["reads"]), point["dimension"], "fit")
        order = lens.say("cut_less" if c["to"] < c["reads"] else "cut_more", to=lens.shown.own(c["to"], point["dimension"], scale_of(point)), by=by)
        orders.append(c["station"] + " " + order if c["station"] else order)
    out = [lens.say("cut_order", point=point["title"], cuts=lens.listed(orders))] if orders else []
    for why in ("wrong_way", "held", "apart"):
        at = [c["station"] for c in left if c["why"] == why]
        if at:
            where = lens.say("cut_point_at", point=point["title"], at=lens.listed(at)) if at[0] else point["title"]
            out.append(lens.say("cut_" + why, point=where))
    return " ".join(out)


def _again(lens: Lens, spec: dict, done: list[dict]) -> str:
    """What else rests on the point: cutting moves that too."""
    if not done:
        return ""
    fits = lens.procedure["fits"]
    others = [f["title"] for f in [fits[name] for name in _in_order(lens) if name != spec["fit"]] if spec["point"] in f["points"]]
    again = counted(lens, len(done), "cut_again_one", "cut_again_many")
    return again + " " + lens.say("cut_moves_too", fits=lens.listed(others)) if others else again


def _in_order(lens: Lens) -> list[str]:
    """Fits in the order of the steps that work them out."""
    out: list[str] = []
    for step in lens.procedure["steps"]:
        out = out + [name for name in step["works_out"] if name not in out]
    return out
