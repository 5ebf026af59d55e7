"""The one size that brings several figures in: a gasket to order, a bore to hone, a deck to cut.

Law: near where it stands a figure moves in proportion to the size: by `sens` billionths of its unit for each unit of size.
Each figure's limits then leave a range of sizes; what is in all the ranges cures. In that range the size is taken that
leaves the least sum of squared deviations from what is wanted. Ends are rounded into the range, never out of it.
"""
from __future__ import annotations

from .within import divided, excess, target

BILLION = 1000000000


def one_size(now: int, figures: list, at_least: int | None = None, at_most: int | None = None) -> dict:
    """Sizes that bring every figure in.

    now       the present size
    figures   {value, sens, low, high, aim, wanted}: the figure now, its change in billionths per unit of size, its limits;
              `wanted` False for one that only has to stay in
    at_least, at_most  what the size may be; None where nothing says

    Returns {low, high, best, held}: the range (None where it has no end) and the best size in it; `best` None when no size will do.
    `held` is True when a figure that is out does not depend on the size at all.
    """
    low, high, held = at_least, at_most, False
    for figure in figures:
        if not figure["sens"]:
            held = held or bool(excess(figure["value"], figure))
            continue
        first, last = _range(now, figure)
        low = first if low is None or (first is not None and first > low) else low
        high = last if high is None or (last is not None and last < high) else high
    none = held or (low is not None and high is not None and low > high)
    return {"low": low, "high": high, "held": held, "best": None if none else _inside(_nearest(now, figures), low, high)}


def _range(now: int, figure: dict) -> tuple:
    """(least, most) size at which this figure is in; None where there is no end."""
    sens = figure["sens"]
    ends = (figure.get("low"), figure.get("high")) if sens > 0 else (figure.get("high"), figure.get("low"))
    least = most = None
    if ends[0] is not None:
        least = now - _floor((figure["value"] - ends[0]) * BILLION, sens)
    if ends[1] is not None:
        most = now + _floor((ends[1] - figure["value"]) * BILLION, sens)
    return least, most


def _floor(a: int, b: int) -> int:
    """a / b rounded down, whatever the signs."""
    return a // b if b > 0 else -a // -b


def _nearest(now: int, figures: list) -> int:
    """The size with the least sum of squared deviations, were there no limits."""
    top = bottom = 0
    for figure in figures:
        wanted = target(figure)
        if wanted is not None and figure.get("wanted", True):
            top += figure["sens"] * (wanted - figure["value"]) * BILLION
            bottom += figure["sens"] * figure["sens"]
    return now + divided(top, bottom) if bottom else now


def _inside(size: int, low: int | None, high: int | None) -> int:
    if low is not None and size < low:
        return low
    return high if high is not None and size > high else size
