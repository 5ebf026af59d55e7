"""Every gate: a fit that is read and not in holds back a step, and a step finished behind a closed gate is named."""
from __future__ import annotations

from ..order import statuses
from ..view.fit_view import fit_view
from ..view.holds import hold_sentence, step_of_fit
from ..view.lens import Lens
from .finding import HOLD, finding


def findings(lens: Lens) -> list[dict]:
    out = []
    for row in statuses(lens.build):
        step = lens.build.steps[row["id"]]
        for fit in row["closed"]:
            if fit["state"] in ("under", "over"):
                out.append(_out_of_limit(lens, step, fit))
        if row["closed"] and row["work"] and all([w["state"] == "read" for w in row["work"]]):
            out.append(finding("gates", HOLD, "“" + step["title"] + "” was finished while its gate is closed. "
                               + hold_sentence(lens, step, row["closed"]),
                               "Work behind a closed gate may have to come apart again.",
                               "Put the fit right or ask for a concession, then look at this step again.", step["id"]))
    return out


def _out_of_limit(lens: Lens, step: dict, fit: dict) -> dict:
    seen = fit_view(lens, fit)
    says = seen["title"] + " reads " + seen["value"] + " " + seen["unit"] + ", " + seen["says"] + ". " + seen["limit"]["says"]
    return finding("gates", HOLD, says, "“" + step["title"] + "” waits until it is in.",
                   "See the corrections worked out at “" + lens.build.steps[step_of_fit(lens.procedure, fit["fit"])]["title"] + "”.",
                   step["id"], fit["fit"], fit["station"])
