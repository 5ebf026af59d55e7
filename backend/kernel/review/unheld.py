"""Every fit that is out of its limit though no step waits for it: it would otherwise pass unsaid."""
from __future__ import annotations

from ..fits import fit_everywhere
from ..view.holds import step_of_fit
from ..view.lens import Lens
from .finding import LOOK, finding
from .misfit import cure_words, is_out, misfit_says, worked_out

_WHY = "No step waits for this figure, so nothing else stops the build on it."


def findings(lens: Lens) -> list[dict]:
    return [_finding(lens, fit) for name in worked_out(lens.procedure, "unheld") for fit in fit_everywhere(lens.build, name) if is_out(fit)]


def _finding(lens: Lens, fit: dict) -> dict:
    name = fit["fit"]
    return finding("unheld", LOOK, misfit_says(lens, fit), lens.procedure["fits"][name].get("why") or _WHY, cure_words(lens, name),
                   step_of_fit(lens.procedure, name), name, fit["station"])
