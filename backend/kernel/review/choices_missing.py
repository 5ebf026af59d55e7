"""Something that limits or figures depend on was never chosen, and work has gone past the place where it is asked."""
from __future__ import annotations

from ..order import statuses
from ..view.lens import Lens, capital
from .finding import LOOK, finding
from .misfit import quoted


def findings(lens: Lens) -> list[dict]:
    needed_by = _needed_by(lens.procedure)
    out = []
    for step in lens.procedure["steps"]:
        for choice in step.get("asks") or []:
            begun = None if choice in lens.build.choices else _begun_after(lens, step["id"])
            if begun and needed_by.get(choice):
                out.append(_finding(lens, choice, needed_by[choice], step, begun))
    return out


def _finding(lens: Lens, choice: str, fits: list[str], asked: dict, begun: dict) -> dict:
    titles = [lens.procedure["fits"][name]["title"] for name in fits]
    judged = capital(lens.listed([title[:1].lower() + title[1:] for title in titles]))
    says = lens.say("not_chosen", choice=lens.procedure["choices"][choice]["title"], step=quoted(lens, begun))
    return finding("choices_missing", LOOK, says, lens.say("goes_by" if len(fits) == 1 else "go_by", fits=judged),
                   lens.say("choose_at", step=quoted(lens, asked)), asked["id"])


def _begun_after(lens: Lens, asked: str) -> dict | None:
    """The first step after this one that has work done in it."""
    past = False
    for row in statuses(lens.build):
        if past and any([w["kind"] != "choice" and w["state"] != "not_read" for w in row["work"]]):
            return lens.build.steps[row["id"]]
        past = past or row["id"] == asked
    return None


def _needed_by(procedure: dict) -> dict[str, list[str]]:
    """For each choice, the fits whose limit or formula goes by it, in the order in which the steps work them out."""
    out: dict[str, list[str]] = {}
    for name in [name for step in procedure["steps"] for name in step["works_out"]]:
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
