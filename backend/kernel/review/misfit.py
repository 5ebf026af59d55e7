"""A fit that is out, in words, and which check speaks for it.

Law: one check speaks for a fit: `gates` where a step is held by it, `spread` where it levels stations, else `unheld`.
"""
from __future__ import annotations

from ..fits import fit_everywhere
from ..order import corrections_of
from ..sorting import merge_sort
from ..view.fit_view import fit_view
from ..view.holds import step_of_fit
from ..view.lens import Lens
from .finding import LOOK, finding


def to_look_at(lens: Lens, check: str, why: str) -> list[dict]:
    """A finding for every misfit that `check` speaks for; `why` where the procedure gives no reason of its own."""
    out = []
    for name in _spoken_for(lens.procedure, check):
        reason = lens.procedure["fits"][name].get("why") or why
        for fit in fit_everywhere(lens.build, name):
            if is_out(fit):
                out.append(finding(check, LOOK, misfit_says(lens, fit), reason, cure_words(lens, name),
                                   step_of_fit(lens.procedure, name), name, fit["station"]))
    return out


def _spoken_for(procedure: dict, check: str) -> list[str]:
    """The fits that some step works out and that `check` speaks for, each once, in the order of the steps."""
    held = {name: True for step in procedure["steps"] for name in step["gates"]}
    out: dict[str, bool] = {}
    order = []
    for step in procedure["steps"]:
        for name in step["works_out"]:
            if name not in out and name not in held and _levels(procedure, name) == (check == "spread"):
                out[name] = True
                order.append(name)
    return order


def _levels(procedure: dict, fit_name: str) -> bool:
    """Whether a fit is a spread between stations."""
    tree = procedure["fits"][fit_name]["tree"]
    return tree[0] == "spread" and len(tree) == 2


def is_out(fit: dict) -> bool:
    """Read, beyond its limit, and not let through."""
    return fit["state"] in ("under", "over") and not fit["open"]


def misfit_says(lens: Lens, fit: dict) -> str:
    """`Squish, cylinder 3 reads 31.0 thou, under by 4.0. Limit 35.0–45.0 from …, for rod material steel.`"""
    seen = fit_view(lens, fit)
    shown = seen["value"] + (" " + seen["unit"] if seen["unit"] else "")
    limit = seen["limit"]["says"]
    chosen = _chosen_words(lens, lens.procedure["fits"][fit["fit"]]["limit"], fit["limit"]["authority"])
    if chosen:
        limit = lens.say("for_chosen", limit=limit[: len(limit) - 1], chosen=lens.listed(chosen))
    return lens.say("misfit", title=seen["title"], shown=shown, says=seen["says"], limit=limit)


def quoted(lens: Lens, step: dict) -> str:
    return lens.say("quoted", title=step["title"])


def _chosen_words(lens: Lens, limit: str, authority: str) -> list[str]:
    """What was chosen that this limit goes by: `rod material steel`. A limit set for this build goes by nothing."""
    build = lens.build
    if authority in build.limits.get(limit, {}):
        return []
    ids: list[str] = []
    for row in lens.procedure["limits"].get(limit, []):
        if row["authority"] == authority:
            ids = ids + [name for name in row.get("when") or {} if name in build.choices and name not in ids]
    ids = merge_sort(ids, lambda name: name)
    return [_small(lens.procedure["choices"][name]["title"]) + " " + build.choices[name]["title"] for name in ids]


def _small(title: str) -> str:
    return title[:1].lower() + title[1:]


def cure_words(lens: Lens, fit_name: str) -> str:
    """What would put a fit right: the procedure's own words, and where a correction is worked out."""
    words = [lens.procedure["fits"][fit_name].get("cure") or ""]
    step = _step_correcting(lens.procedure, fit_name)
    if step:
        words.append(lens.say("see_worked_out", step=quoted(lens, step)))
    words = [_sentence(w) for w in words if w]
    if words:
        return " ".join(words)
    read_at = step_of_fit(lens.procedure, fit_name)
    return lens.say("read_again_at", step=quoted(lens, lens.build.steps[read_at])) if read_at else ""


def _step_correcting(procedure: dict, fit_name: str) -> dict | None:
    for step in procedure["steps"]:
        for record in corrections_of(step):
            if fit_name in (record.get("fit"), record.get("level")) or fit_name in (record.get("fits") or []):
                return step
    return None


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:] + ("" if text[len(text) - 1] in ".!?" else ".")
