"""Why a step may not go on."""
from __future__ import annotations

from ..order import DONE, corrected_fits, misfits
from .fit_view import fit_view
from .lens import Lens, capital


def holds(lens: Lens, step: dict, closed: list[dict]) -> list[dict]:
    """One Hold a gate of this step that is closed."""
    out = []
    for name in step["gates"]:
        fits = [fit for fit in closed if fit["fit"] == name]
        if fits:
            out.append({"fit": name, "title": lens.procedure["fits"][name]["title"], "sentence": hold_sentence(lens, step, fits),
                        "step": step_of_fit(lens.procedure, name), "fits": [fit_view(lens, f) for f in fits],
                        "concede": [_concede(f) for f in fits if f["state"] not in ("stale", "contrary")]})
    return out


def hold_sentence(lens: Lens, step: dict, fits: list[dict]) -> str:
    """`Cam end play is over. Until it is in, “Timing set” waits.`"""
    return lens.say("hold", misfit=misfit_words(lens, fits), step=step["title"])


def misfit_words(lens: Lens, fits: list[dict]) -> str:
    """`Main clearance is under at main 1 and is over at main 5`, for one fit at the stations where it is not open."""
    spec = lens.procedure["fits"][fits[0]["fit"]]
    parts = []
    for state in ("over", "under", "stale", "contrary", "no_figure", "no_limit", "not_read"):
        stations = [f["station"] for f in fits if f["state"] == state]
        if stations:
            parts.append(_state_words(lens, spec, state, stations))
    return spec["title"] + " " + lens.listed(parts)


def _state_words(lens: Lens, spec: dict, state: str, stations: list[str]) -> str:
    what = lens.say("is_" + state)
    if not spec["group"]:
        return what
    return lens.say("at_stations", what=what, where=lens.procedure["groups"][spec["group"]]["title"] + " " + lens.listed(stations))


def _concede(fit: dict) -> dict:
    return {"type": "concession", "body": {"fit": fit["fit"], "station": fit["station"], "value": fit["value"]}}


def step_of_fit(procedure: dict, fit: str) -> str:
    """The step where a fit is read and can be put right."""
    for step in procedure["steps"]:
        if fit in step["works_out"]:
            return step["id"]
    return ""


def why_waiting(lens: Lens, row: dict) -> list[str]:
    """Sentences: what a step waits for, or what must be done again."""
    out = []
    if row["waits"]:
        titles = [lens.say("quoted", title=lens.build.steps[name]["title"]) for name in row["waits"]]
        out.append(lens.say("waits_for", steps=lens.listed(titles)))
    step = lens.build.steps[row["id"]]
    for hold in holds(lens, step, row["closed"]) if not row["waits"] else []:
        out.append(hold["sentence"])
    found = misfits(lens.build, step) if row["status"] == DONE else []
    for name in corrected_fits(step):
        own = [fit for fit in found if fit["fit"] == name]
        if own:
            out.append(lens.say("see_cure", misfit=misfit_words(lens, own)))
    again = again_words(lens, row)
    if again:
        out.append(lens.say("do_again", what=lens.listed(again)))
    return out


def again_words(lens: Lens, row: dict) -> list[str]:
    """What of a step must be done again, in the bench's words, each once."""
    out: list[str] = []
    bolts: list[str] = []
    for work in row["work"]:
        if work["state"] != "stale":
            continue
        if work["kind"] == "pull":
            bolt = work["key"].split("/")[2]
            bolts = bolts if bolt in bolts else bolts + [bolt]
        else:
            out.append(_work_word(lens, row["id"], work))
    return out + ([lens.say("torque_of", bolts=lens.listed(bolts))] if bolts else [])


def _work_word(lens: Lens, step: str, work: dict) -> str:
    if work["kind"] == "reading":
        point, _, station = work["key"].partition("@")
        return lens.spot_title("points", point, station)
    if work["kind"] == "choice":
        return lens.procedure["choices"][work["key"]]["title"]
    item = work["key"].partition("/")[2]
    for confirm in lens.build.steps[step]["confirms"]:
        if confirm["id"] == item:
            return capital(confirm["text"])
    return item
