"""Shares parts of so many sizes out over several valves.

Law: a stack costs what its valve's rules say; the whole costs the sum; no size is used more often than there are parts of it.
The search goes through the valves, those with the fewest cures first, and gives up a branch as soon as even the cheapest stacks
for the rest could not beat the best found. Within `most` looks the answer is the best there is; past that, the best met.
"""
from __future__ import annotations

from ..sorting import merge_sort
from .within import common_step


def share(kinds: list, stock: dict, options: list, now: list, most: int) -> list:
    """The sizes by slot for each valve.

    kinds    the kind of part by slot        stock  {kind: {size: how many}}; used up and given back while searching
    options  for each valve [(out, square, parts, changed, sizes)], best first    now  for each valve the number of its present one
    """
    prices = _prices(options)
    order = merge_sort(list(range(len(options))), lambda i: len([o for o in options[i] if not o[0]]))
    search = _Search(kinds, stock, [options[i] for i in order], [prices[i] for i in order], [now[i] for i in order])
    search.run(most)
    chosen: list = [None] * len(options)
    for depth in range(len(order)):
        chosen[order[depth]] = options[order[depth]][search.best[depth]][4]
    return chosen


def _prices(options: list) -> list:
    """The four rules folded into one integer a stack, each dearer than all that the later ones can add up to."""
    every = [o for row in options for o in row]
    count, step = len(options), common_step([o[1] for o in every])
    part = count * max([o[3] for o in every] + [0]) + 1
    square = count * part * max([o[2] for o in every] + [0]) + part
    out = count * square * max([o[1] // step for o in every] + [0]) + square
    return [[o[0] * out + o[1] // step * square + o[2] * part + o[3] for o in row] for row in options]


class _Search:
    def __init__(self, kinds: list, stock: dict, options: list, prices: list, now: list) -> None:
        self.kinds, self.stock, self.options, self.prices = kinds, stock, options, prices
        self.best = list(now)
        self.best_cost = sum([prices[i][now[i]] for i in range(len(now))])
        self.least = [0]          # from the last valve backwards: what the rest costs at least
        for i in range(len(now)):
            self.least.append(self.least[i] + min(prices[len(now) - 1 - i]))

    def run(self, most: int) -> None:
        """Depth first, by hand: one pick a valve, taken back when the branch is done."""
        count = len(self.options)
        picks, spent = [-1] * (count + 1), [0] * (count + 1)
        depth = 0
        while depth >= 0 and most > 0:
            if depth == count:
                self.best, self.best_cost = picks[:count], spent[count]
                depth -= 1
                continue
            if picks[depth] >= 0:
                self._use(self.options[depth][picks[depth]][4], -1)
            pick = self._next(depth, picks[depth] + 1, self.best_cost - spent[depth] - self.least[count - 1 - depth])
            most -= 1
            picks[depth] = pick
            if pick < 0:
                depth -= 1
                continue
            self._use(self.options[depth][pick][4], 1)
            spent[depth + 1] = spent[depth] + self.prices[depth][pick]
            depth += 1
            picks[depth] = -1

    def _next(self, depth: int, pick: int, below: int) -> int:
        """The next stack of this valve that costs less than `below` and for which there are parts; -1 when there is none."""
        while pick < len(self.options[depth]) and self.prices[depth][pick] < below:
            if self._is_there(self.options[depth][pick][4]):
                return pick
            pick += 1
        return -1

    def _is_there(self, sizes: list) -> bool:
        self._use(sizes, 1)
        short = any([self.stock[self.kinds[at]][size] < 0 for at in range(len(sizes)) for size in sizes[at]])
        self._use(sizes, -1)
        return not short

    def _use(self, sizes: list, times: int) -> None:
        for at in range(len(sizes)):
            for size in sizes[at]:
                self.stock[self.kinds[at]][size] -= times
