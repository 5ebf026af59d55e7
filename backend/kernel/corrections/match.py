"""Which part at which station: parts of one kind change places with each other and with loose ones.

Law: every station keeps one part, and no part serves twice. What a part would read at a station is a given figure, so any
answer can be checked on paper. Which placing is best:
  1. the fewest stations out, where a spread over the level counts as one more;
  2. the least sum of squared deviations from the aims; without an aim, the least spread between stations;
  3. the fewest stations that change.
The answer is the best of all placings, not the best of some.

Common practice, no published source: to level two sums with one kind of part, the largest goes to the smallest.
"""
from __future__ import annotations

from .assignment import assign
from .within import common_step, excess
from .windows import Windows


def match(figures: list, now: list, limits: list, level: int | None = None) -> dict:
    """Place parts at stations.

    figures  one row a station: the figure with each part, None where that part may not go or is not known
    now      for each station the number of the part it holds
    limits   for each station {low, high, aim}, each an integer or None; the aims count only when every station has one
    level    the most spread between stations, or None

    Returns {parts, figures, moved, out, spread, even, cures}: `parts` the number of the part at each station, `figures` what
    each then reads, `moved` the numbers of the stations that change, `out` of those that stay out, `even` whether the spread
    is within the level, `cures` whether none is out and all is even.
    Raises ValueError when a station's own part has no figure or two stations hold the same part.
    """
    _check(figures, now)
    squares = _squares(figures, limits)
    placed = _to_the_aim(figures, now, limits, level, squares) if squares else _levelled(figures, now, limits, level)
    return _answer(figures, now, limits, level, placed)


def _check(figures: list, now: list) -> None:
    for station in range(len(now)):
        if figures[station][now[station]] is None:
            raise ValueError("A station's own part has no figure. Read it before parts change places.")
        if now[station] in now[:station]:
            raise ValueError("Two stations cannot hold the same part.")


def _squares(figures: list, limits: list) -> list:
    """Squared deviations from the aims, in squares of the step that all share; [] when a station has no aim."""
    if any([limit.get("aim") is None for limit in limits]):
        return []
    off = [[None if f is None else f - limits[i]["aim"] for f in figures[i]] for i in range(len(figures))]
    step = common_step([o for row in off for o in row if o is not None])
    return [[None if o is None else (o // step) * (o // step) for o in row] for row in off]


class Prices:
    """Rules 1 to 3 folded into one integer a place, each rule dearer than all that the later ones can add up to."""

    def __init__(self, figures: list, now: list, limits: list, squares: list) -> None:
        count = len(now)
        worst = max([s for row in squares for s in row if s is not None] + [0])
        self.square = count + 1
        self.out = (count * worst + 1) * self.square
        self.shut = self.out * (count + 2)
        self.table = []
        for i in range(count):
            row = []
            for part in range(len(figures[i])):
                figure = figures[i][part]
                row.append(self.shut if figure is None else (self.out if excess(figure, limits[i]) else 0)
                           + (squares[i][part] * self.square if squares else 0) + (0 if part == now[i] else 1))
            self.table.append(row)


def _to_the_aim(figures: list, now: list, limits: list, level: int | None, squares: list) -> list:
    prices = Prices(figures, now, limits, squares)
    parts, cost = assign(prices.table)
    if level is None or _spread(figures, parts) <= level:
        return parts
    even = Windows(figures, prices.table, prices.shut).within(level, cost + prices.out)
    return even[1] if even else parts


def _levelled(figures: list, now: list, limits: list, level: int | None) -> list:
    prices = Prices(figures, now, limits, [])
    least = assign(prices.table)[1] // prices.out
    found = Windows(figures, prices.table, prices.shut).narrowest((least + 1) * prices.out)
    if level is not None and found is not None and found[0] > level:
        one_more = Windows(figures, prices.table, prices.shut).narrowest((least + 2) * prices.out, level)
        found = one_more if one_more is not None else found
    return found[2] if found is not None else now


def _spread(figures: list, parts: list) -> int:
    read = [figures[i][parts[i]] for i in range(len(parts))]
    return max(read) - min(read)


def _answer(figures: list, now: list, limits: list, level: int | None, parts: list) -> dict:
    stations = range(len(parts))
    out = [i for i in stations if excess(figures[i][parts[i]], limits[i])]
    spread = _spread(figures, parts)
    even = level is None or spread <= level
    return {"parts": parts, "figures": [figures[i][parts[i]] for i in stations], "spread": spread, "even": even, "out": out,
            "moved": [i for i in stations if parts[i] != now[i]], "cures": even and not out}
