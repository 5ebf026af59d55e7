"""Spread of a fit between its stations: every station may be in, and the engine still not level."""
from __future__ import annotations

from ..fits import fit_everywhere
from ..view.fit_view import fit_view
from ..view.lens import Lens
from .finding import LOOK, finding


def findings(lens: Lens) -> list[dict]:
    out = []
    for step in lens.procedure["steps"]:
        for name in step["works_out"]:
            if lens.procedure["fits"][name]["tree"][0] == "spread":
                out = out + [_finding(lens, step, fit) for fit in fit_everywhere(lens.build, name) if fit["state"] == "over"]
    return out


def _finding(lens: Lens, step: dict, fit: dict) -> dict:
    seen = fit_view(lens, fit)
    return finding("spread", LOOK, seen["title"] + " is " + seen["value"] + " " + seen["unit"] + ", " + seen["says"] + ". " + seen["limit"]["says"],
                   "Uneven clearances share the load and the oil unevenly.",
                   "Level them: see the exchanges worked out at “" + step["title"] + "”.", step["id"], fit["fit"])
