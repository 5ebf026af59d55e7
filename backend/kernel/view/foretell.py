"""The verdict of a reading before it is stored, so that a phone can show it the moment the reading is kept.

Law: it is the same judgement as after the reading: the reading is put in place, the fits are judged, and it is taken out
again. Nothing of the build is different afterwards.
"""
from __future__ import annotations

from ..events import quantity_of, spot_of
from ..fits import fit_at
from ..sentence import BadNumber
from .fit_view import fit_view
from .lens import Lens


def foretell(lens: Lens, draft: dict, step_id: str) -> list[dict]:
    """FitViews of this step's fits that the reading touches, as they would stand with it; none for anything but a reading."""
    step = lens.build.steps.get(step_id)
    if step is None or draft["type"] != "reading":
        return []
    try:
        return _with_reading(lens, step, draft)
    except BadNumber:
        return []


def _with_reading(lens: Lens, step: dict, draft: dict) -> list[dict]:
    body, build = draft["body"], lens.build
    point = lens.procedure["points"][body["point"]]
    spot = spot_of(body["point"], body["station"])
    number = quantity_of(body["text"], body["unit"], point["dimension"], lens.procedure["units"])
    entry = {"value": number["value"], "step": number["step"], "text": body["text"], "unit": body["unit"], "stale": None}
    heads = build.heads.get(spot)
    build.memo.forget(draft)
    build.heads[spot] = [entry]
    try:
        return [fit_view(lens, fit_at(build, name, at)) for name, at in _touched(lens, step, body["station"])]
    finally:
        if heads is None:
            del build.heads[spot]
        else:
            build.heads[spot] = heads
        build.memo.forget(draft)


def _touched(lens: Lens, step: dict, station: str) -> list[tuple[str, str]]:
    """Fits at this station, and those that have only one figure."""
    out = []
    for name in step["works_out"]:
        for at in lens.build.stations(lens.procedure["fits"][name]["group"]):
            if at == station or at == "":
                out.append((name, at))
    return out
