"""A folded build as plain rows: for projections into tables, and for holding two folds against each other."""
from __future__ import annotations

from .fits import current, fit_everywhere, figure
from .order import statuses
from .sorting import merge_sort
from .view.fit_view import amount, limit_range
from .view.lens import Lens
from .show import scale_of


def reading_rows(build) -> list[dict]:
    """Every attempt at every spot, spots in order, attempts in fold order."""
    out = []
    for spot in merge_sort(list(build.readings.keys()), lambda k: k):
        counting = current(build, spot)
        for r in build.readings[spot]:
            out.append({"spot": spot, "point": r["point"], "station": r["station"], "value": r["value"], "unit": r["unit"],
                        "text": r["text"], "event": r["id"], "who": r["event"].get("who") or "", "at": r["event"]["at"],
                        "counts": counting is not None and counting["id"] == r["id"], "struck": build.is_struck(r["event"])})
    return out


def fit_rows(lens: Lens) -> list[dict]:
    """Every fit so far against its limit, in procedure order of the steps that work it out."""
    out = []
    for step in lens.procedure["steps"]:
        for name in step["works_out"]:
            out.append(_fit_row(lens, name, fit_everywhere(lens.build, name)))
    return out


def _fit_row(lens: Lens, name: str, fits: list[dict]) -> dict:
    limit = fits[0]["limit"]
    spec = lens.procedure["fits"][name]
    label = lens.shown.label(lens.shown.unit(spec["dimension"], scale_of(spec)))
    return {"fit": name, "title": spec["title"], "low": limit["low"] if limit else None, "high": limit["high"] if limit else None,
            "shown_limit": limit_range(lens, name, limit) + " " + label if limit else "",
            "values": [{"station": f["station"], "raw": f["value"], "state": f["state"],
                        "shown": "" if f["value"] is None else amount(lens, name, f["value"])} for f in fits]}


def build_dump(build) -> dict:
    """The whole state in a form that equals another's exactly when the builds are equal."""
    return {
        "info": build.info, "events": len(build.events), "unknown": build.unknown, "flags": build.flags,
        "readings": reading_rows(build), "struck": _keys(build.struck),
        "steps": [{"id": r["id"], "status": r["status"], "waits": r["waits"], "work": r["work"],
                   "closed": [[f["fit"], f["station"], f["state"]] for f in r["closed"]]} for r in statuses(build)],
        "fits": [_fit_dump(build, step, name) for step in build.procedure["steps"] for name in step["works_out"]],
        "slots": [[spot, build.held[spot]] for spot in _keys(build.held)],
        "parts": [[name, build.parts[name]["kind"], build.parts[name]["size"]] for name in _keys(build.parts)],
        "limits": [[name, authority, build.limits[name][authority]] for name in _keys(build.limits) for authority in _keys(build.limits[name])],
        "choices": [[name, build.choices[name]["option"]] for name in _keys(build.choices)],
        "notes": [[name, build.notes[name]] for name in _keys(build.notes)],
        "filed": [[spot, [f["turns"] for f in build.filed[spot]]] for spot in _keys(build.filed)],
        "concessions": [[c["id"], c["counts"], bool(c["reviewed"])] for c in build.concessions],
    }


def _fit_dump(build, step: dict, name: str) -> dict:
    group = build.procedure["fits"][name]["group"]
    return {"step": step["id"], "fit": name, "figures": [_figure_dump(figure(build, name, s)) for s in build.stations(group)]}


def _figure_dump(found: dict) -> dict:
    return {"state": found["state"], "value": found["value"], "step": found["step"],
            "sens": [[key, found["sens"][key]] for key in _keys(found["sens"])]}


def _keys(table: dict) -> list[str]:
    return merge_sort(list(table.keys()), lambda k: k)
