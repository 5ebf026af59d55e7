"""Every gate: a fit that is read and not in holds back a step, and a step finished behind a closed gate is named."""
from __future__ import annotations

from ..order import statuses
from ..view.holds import hold_sentence
from ..view.lens import Lens, listed
from .finding import HOLD, finding
from .misfit import cure_words, is_out, misfit_says


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
            out.append(finding("gates", HOLD, "“" + step["title"] + "” was finished while its gate is closed. "
                               + hold_sentence(lens, step, row["closed"]),
                               "Work behind a closed gate may have to come apart again.",
                               "Put the fit right or ask for a concession, then look at this step again.", step["id"]))
    return out


def _out_of_limit(lens: Lens, step: dict, fit: dict) -> dict:
    """One finding a fit and station, at the first step it holds; every step it holds is named."""
    held = ["“" + s["title"] + "”" for s in lens.procedure["steps"] if fit["fit"] in s["gates"]]
    why = listed(held) + (" waits" if len(held) == 1 else " wait") + " until it is in."
    own = lens.procedure["fits"][fit["fit"]].get("why") or ""
    return finding("gates", HOLD, misfit_says(lens, fit), why + (" " + own if own else ""), cure_words(lens, fit["fit"]),
                   step["id"], fit["fit"], fit["station"])
