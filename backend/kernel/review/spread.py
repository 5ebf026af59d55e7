"""Spread of a fit between its stations: every station may be in, and the engine still not level."""
from __future__ import annotations

from ..fits import fit_everywhere
from ..view.holds import step_of_fit
from ..view.lens import Lens
from .finding import LOOK, finding
from .misfit import cure_words, is_out, misfit_says, worked_out

_WHY = "Stations that differ share the load unevenly."


def findings(lens: Lens) -> list[dict]:
    return [_finding(lens, fit) for name in worked_out(lens.procedure, "spread") for fit in fit_everywhere(lens.build, name) if is_out(fit)]


def _finding(lens: Lens, fit: dict) -> dict:
    name = fit["fit"]
    return finding("spread", LOOK, misfit_says(lens, fit), lens.procedure["fits"][name].get("why") or _WHY, cure_words(lens, name),
                   step_of_fit(lens.procedure, name), name, fit["station"])
