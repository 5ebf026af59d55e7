"""A fit that is out, in words, and which check speaks for it.

Law: one check speaks for a fit: `gates` where a step is held by it, `spread` where it levels stations, else `unheld`.
"""
from __future__ import annotations

from ..order import corrections_of
from ..sorting import merge_sort
from ..view.fit_view import fit_view
from ..view.holds import step_of_fit
from ..view.lens import Lens, listed


def speaker(procedure: dict, fit_name: str) -> str:
    """`gates`, `spread` or `unheld`."""
    for step in procedure["steps"]:
        if fit_name in step["gates"]:
            return "gates"
    tree = procedure["fits"][fit_name]["tree"]
    return "spread" if tree[0] == "spread" and len(tree) == 2 else "unheld"


def worked_out(procedure: dict, check: str) -> list[str]:
    """The fits that some step works out and that `check` speaks for, each once, in the order of the steps."""
    out: list[str] = []
    for step in procedure["steps"]:
        out = out + [name for name in step["works_out"] if name not in out and speaker(procedure, name) == check]
    return out


def is_out(fit: dict) -> bool:
    """Read, beyond its limit, and not let through."""
    return fit["state"] in ("under", "over") and not fit["open"]


def misfit_says(lens: Lens, fit: dict) -> str:
    """`Squish, cylinder 3 reads 31.0 thou, under by 4.0. Limit 35.0–45.0 from …, for rod material steel.`"""
    seen = fit_view(lens, fit)
    unit = " " + seen["unit"] if seen["unit"] else ""
    limit = seen["limit"]["says"]
    chosen = _chosen_words(lens, lens.procedure["fits"][fit["fit"]]["limit"], fit["limit"]["authority"])
    if chosen:
        limit = limit[: len(limit) - 1] + ", for " + listed(chosen) + "."
    return seen["title"] + " reads " + seen["value"] + unit + ", " + seen["says"] + ". " + limit


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
        words.append("See what is worked out at “" + step["title"] + "”.")
    words = [_sentence(w) for w in words if w]
    if words:
        return " ".join(words)
    read_at = step_of_fit(lens.procedure, fit_name)
    return "Read it again at “" + lens.build.steps[read_at]["title"] + "”; if it stands, the parts have to be put right." if read_at else ""


def _step_correcting(procedure: dict, fit_name: str) -> dict | None:
    for step in procedure["steps"]:
        for record in corrections_of(step):
            if fit_name in (record.get("fit"), record.get("level")) or fit_name in (record.get("fits") or []):
                return step
    return None


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:] + ("" if text[len(text) - 1] in ".!?" else ".")
