"""Something that limits or figures depend on was never chosen, and work has gone past the place where it is asked."""
from __future__ import annotations

from ..order import statuses
from ..view.lens import Lens, listed
from .finding import LOOK, finding


def findings(lens: Lens) -> list[dict]:
    choices = lens.procedure.get("choices") or {}
    if not choices:
        return []
    needed_by = _needed_by(lens.procedure)
    out = []
    for name in choices:
        if name not in lens.build.choices and needed_by.get(name):
            asked, begun = _asked_and_begun(lens, name)
            if begun:
                out.append(_finding(lens, name, needed_by[name], asked, begun))
    return out


def _finding(lens: Lens, choice: str, fits: list[str], asked: dict | None, begun: dict) -> dict:
    title = lens.procedure["choices"][choice]["title"]
    judged = listed([lens.procedure["fits"][name]["title"] for name in fits])
    return finding("choices_missing", LOOK, title + " has not been chosen, and “" + begun["title"] + "” has begun.",
                   judged + (" goes" if len(fits) == 1 else " go") + " by it.",
                   "Choose it" + (" at “" + asked["title"] + "”" if asked else "") + " before going on.", (asked or begun)["id"])


def _asked_and_begun(lens: Lens, choice: str) -> tuple[dict | None, dict | None]:
    """The step that asks for a choice, and the first step after it with work done; where none asks, the first with any."""
    asked = None
    for step in lens.procedure["steps"]:
        if choice in (step.get("asks") or []):
            asked = step
    past = asked is None
    for row in statuses(lens.build):
        if past and any([w["kind"] != "choice" and w["state"] != "not_read" for w in row["work"]]):
            return asked, lens.build.steps[row["id"]]
        past = past or (asked is not None and row["id"] == asked["id"])
    return asked, None


def _needed_by(procedure: dict) -> dict[str, list[str]]:
    """For each choice, the fits whose limit or formula goes by it."""
    out: dict[str, list[str]] = {}
    for name in procedure["fits"]:
        fit = procedure["fits"][name]
        wanted = _in_tree(fit["tree"])
        for row in procedure["limits"].get(fit["limit"] or "", []):
            wanted = wanted + list((row.get("when") or {}).keys())
        for choice in wanted:
            known = out.setdefault(choice, [])
            if name not in known:
                known.append(name)
    return out


def _in_tree(tree: list) -> list[str]:
    """Choices named in a formula."""
    out = []
    todo = [tree]
    while todo:
        node = todo.pop()
        if node[0] == "choice":
            out.append(node[1])
        else:
            todo = todo + [part for part in node if isinstance(part, list)]
    return out
