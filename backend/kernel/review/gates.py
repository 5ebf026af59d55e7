"""Every gate: a fit that is read and not in holds back a step, and a step finished behind a closed gate is named."""
from __future__ import annotations

from ..order import statuses
from ..view.holds import hold_sentence
from ..view.lens import Lens
from .finding import HOLD, finding
from .misfit import cure_words, is_out, misfit_says, quoted


def findings(lens: Lens) -> list[dict]:
    out = []
    said: dict[tuple, bool] = {}
    for row in statuses(lens.build):
        step = lens.build.steps[row["id"]]
        for fit in row["closed"]:
            if is_out(fit) and (fit["fit"], fit["station"]) not in said:
                said[(fit["fit"], fit["station"])] = True
                out.append(_out_of_limit(lens, step, fit))
        if row["closed"] and row["work"] and all([w["state"] == "read" for w in row["work"]]):
            says = lens.say("behind_gate", step=quoted(lens, step), hold=hold_sentence(lens, step, row["closed"]))
            out.append(finding("gates", HOLD, says, lens.say("why_behind_gate"), lens.say("cure_behind_gate"), step["id"]))
    return out


def _out_of_limit(lens: Lens, step: dict, fit: dict) -> dict:
    """One finding a fit and station, at the first step it holds; every step it holds is named."""
    held = [quoted(lens, s) for s in lens.procedure["steps"] if fit["fit"] in s["gates"]]
    why = lens.say("waits_until_in" if len(held) == 1 else "wait_until_in", steps=lens.listed(held))
    own = lens.procedure["fits"][fit["fit"]].get("why") or ""
    return finding("gates", HOLD, misfit_says(lens, fit), why + (" " + own if own else ""), cure_words(lens, fit["fit"]),
                   step["id"], fit["fit"], fit["station"])
