"""The size at which figures come in, when they are worked out by any formula.

Law: near a size every figure is as good as straight, with its own sensitivity for a slope; the answer is looked for again from
where it lies until it stays. What is said to cure has been worked out by the formula itself. A formula costs a phone
milliseconds, so no size is tried twice and none that would move a figure by less than a NEARth of its limits.
"""
from __future__ import annotations

from ..corrections.one_size import BILLION, one_size
from ..corrections.within import excess
from ..fits import figure, figure_if
from .offer import ENDS
from .offer_parts import size_key

ROUNDS = 5
NEAR = 200


def figures_at(build, fits: list[dict], key: str, size: int | None) -> list[dict] | None:
    """Figures of `fits` (as fit_at gives them, `wanted` False where one only has to stay in) as `one_size` takes them, were `key`
    of this size (None: as it is); None when one cannot be worked out there."""
    out = []
    for fit in fits:
        name, station = fit["fit"], fit["station"]
        found = figure(build, name, station) if size is None else figure_if(build, name, station, {key: size})
        if found["value"] is None:
            return None
        row = {end: fit["limit"][end] if fit["limit"] else None for end in ENDS}
        row.update({"value": found["value"], "sens": found["sens"].get(key, 0), "wanted": fit.get("wanted", True)})
        out.append(row)
    return out


def reach(build, fits: list[dict], key: str, now: int, find) -> dict | None:
    """`{size, values}`: the size of `key` that brings all `fits` in, `now` being what it is, and what each then reads; None where
    there is none.

    `find(size, figures)` gives the next size to try from figures at `size`; None when there is none.
    """
    size, figures = now, figures_at(build, fits, key, None)
    for _ in range(ROUNDS):
        found = None if figures is None else find(size, figures)
        if found is None or figures is None:
            return None
        if _near(figures, found - size):
            break
        size, figures = found, figures_at(build, fits, key, found)
    if figures is None or any([excess(f["value"], f) for f in figures]):
        return None
    return {"size": size, "values": [f["value"] for f in figures]}


def _near(figures: list[dict], by: int) -> bool:
    """Whether changing the size by so much would hardly move any figure."""
    for f in figures:
        wide = f["high"] - f["low"] if f["low"] is not None and f["high"] is not None else abs(f["value"]) // NEAR
        if abs(f["sens"] * by) * NEAR > wide * BILLION:
            return False
    return True


def part_to_order(build, fits: list[dict], slot: str, station: str, now: int) -> int | None:
    """The size of a part for this place that brings all `fits` in, within what parts of its kind can be; None when no size does."""
    band = build.procedure["parts"][build.procedure["slots"][slot]["part"]]["band"] or [None, None]
    found = reach(build, fits, size_key(slot, station), now, lambda size, figures: one_size(size, figures, band[0], band[1])["best"])
    return found["size"] if found else None
