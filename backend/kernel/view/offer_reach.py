"""The size at which figures come in, when they are worked out by any formula.

Law: near a size every figure is as good as straight; its slope is taken from the fit's own formula at two sizes, and the answer
is looked for again from where it lies until it stays. What is said to cure has been worked out by the formula itself.
"""
from __future__ import annotations

from ..corrections.one_size import BILLION, one_size
from ..corrections.within import divided, excess
from ..fits import figure_if
from .offer_parts import size_key

ROUNDS = 4
FINE, PART = 1000, 1000   # the second size lies a thousandth away, at least so many base units


def figures_at(build, fits: list[dict], key: str, size: int) -> list[dict] | None:
    """Figures of `fits` (as fit_at gives them, `wanted` False where it only has to stay in) as `one_size` takes them, with
    `key` at `size`; None when one cannot be worked out there."""
    apart = max(FINE, abs(size) // PART)
    out = []
    for fit in fits:
        here = figure_if(build, fit["fit"], fit["station"], {key: size})["value"]
        there = figure_if(build, fit["fit"], fit["station"], {key: size + apart})["value"]
        if here is None or there is None:
            return None
        limit = fit["limit"] or {}
        out.append({"value": here, "sens": divided((there - here) * BILLION, apart), "low": limit.get("low"), "high": limit.get("high"),
                    "aim": limit.get("aim"), "wanted": fit.get("wanted", True)})
    return out


def reach(build, fits: list[dict], key: str, now: int, find) -> int | None:
    """The size of `key` that brings all `fits` in, `now` being what it is; None where there is none.

    `find(size, figures)` gives the next size to look at from figures at `size`; None when there is none.
    """
    size = now
    for _ in range(ROUNDS):
        figures = figures_at(build, fits, key, size)
        if figures is None:
            return None
        found = find(size, figures)
        if found is None:
            return None
        if found == size:
            break
        size = found
    return size if all_in(build, fits, key, size) else None


def part_to_order(build, fits: list[dict], slot: str, station: str, now: int) -> int | None:
    """The size of a part for this place that brings all `fits` in, within what parts of its kind can be; None when no size does."""
    band = build.procedure["parts"][build.procedure["slots"][slot]["part"]]["band"] or [None, None]
    return reach(build, fits, size_key(slot, station), now,
                 lambda size, figures: one_size(size, figures, band[0], band[1])["best"])


def all_in(build, fits: list[dict], key: str, size: int) -> bool:
    for fit in fits:
        value = figure_if(build, fit["fit"], fit["station"], {key: size})["value"]
        if value is None or excess(value, fit["limit"] or {}):
            return False
    return True
