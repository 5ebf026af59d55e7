"""Shares parts of so many sizes out over several valves.

Law: a stack costs what its valve's rules say; the whole costs the sum; no size is used more often than there are parts of it.
Only scarce sizes matter to the sharing, and a stack that costs more than another without sparing anything scarce is left out.
The search goes through the valves, those with the fewest cures first, and gives up a branch as soon as even the cheapest stacks
for the rest could not beat the best found. Within `most` looks the answer is the best there is; past that, the best met.
"""
from __future__ import annotations

from ..sorting import merge_sort
from .within import common_step


def share(stock: dict, options: list, now: list, most: int) -> list:
    """The sizes by slot for each valve.

    stock    {kind: {size: how many}}
    options  for each valve the stacks of `nearest_stacks`    now  for each valve the number of its present one
    """
    prices = _prices(options)
    needs, left = _scarce(stock, options)
    kept = [_worth(prices[i], needs[i], now[i]) for i in range(len(options))]
    order = merge_sort(list(range(len(options))), lambda i: (len([at for at in kept[i] if not options[i][at][0]]), i))
    search = _Search([[(prices[i][at], needs[i][at]) for at in kept[i]] for i in order], left,
                     [kept[i].index(now[i]) for i in order])
    search.run(most)
    chosen: list = [None] * len(options)
    for depth in range(len(order)):
        i = order[depth]
        chosen[i] = options[i][kept[i][search.best[depth]]][4]
    return chosen


def _prices(options: list) -> list:
    """The four rules folded into one integer a stack, each dearer than all that the later ones can add up to."""
    every = [o for row in options for o in row]
    count, step = len(options), common_step([o[1] for o in every])
    part = count * max([o[3] for o in every] + [0]) + 1
    square = count * part * max([o[2] for o in every] + [0]) + part
    out = count * square * max([o[1] // step for o in every] + [0]) + square
    return [[o[0] * out + o[1] // step * square + o[2] * part + o[3] for o in row] for row in options]


def _scarce(stock: dict, options: list) -> tuple:
    """(for each stack the numbers of the scarce sizes it uses, how many there are of each): a size is scarce when the valves
    together could want more of it than there are."""
    wanted: dict = {}
    for row in options:
        most: dict = {}
        for option in row:
            counts = option[5]
            for name in counts:
                if counts[name] > most.get(name, 0):
                    most[name] = counts[name]
        for name in most:
            wanted[name] = wanted.get(name, 0) + most[name]
    scarce = merge_sort([name for name in wanted if wanted[name] > stock[name[0]][name[1]]], lambda name: name)
    number = {scarce[n]: n for n in range(len(scarce))}
    needs = [[[(number[name], o[5][name]) for name in o[5] if name in number] for o in row] for row in options]
    return needs, [stock[name[0]][name[1]] for name in scarce]


def _worth(prices: list, needs: list, now: int) -> list:
    """Numbers of the stacks worth looking at, and of the present one; they come cheapest first, but for the present one."""
    kept: list = []
    free = False      # a stack that uses nothing scarce is kept already: no dearer one can be worth it
    for at in range(len(prices)):
        if at == now or (not free and not any([_spares_as_much(needs[other], needs[at]) for other in kept])):
            kept.append(at)
            free = free or not needs[at]
    return kept


def _spares_as_much(one: list, other: list) -> bool:
    """Whether `one` uses no more of anything scarce than `other`."""
    for need in one:
        if not any([has[0] == need[0] and has[1] >= need[1] for has in other]):
            return False
    return True


class _Search:
    """`options`: for each valve [(price, needs)], cheapest first."""

    def __init__(self, options: list, left: list, now: list) -> None:
        self.options, self.left, self.best = options, left, list(now)
        self.best_cost = sum([options[i][now[i]][0] for i in range(len(now))])
        self.least = [0] * (len(options) + 1)    # what the valves from here on cost at least
        for depth in range(len(options) - 1, -1, -1):
            self.least[depth] = self.least[depth + 1] + min([o[0] for o in options[depth]])

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
                self._use(self.options[depth][picks[depth]][1], -1)
            picks[depth] = self._next(depth, picks[depth] + 1, self.best_cost - spent[depth] - self.least[depth + 1])
            most -= 1
            if picks[depth] < 0:
                depth -= 1
                continue
            price, needs = self.options[depth][picks[depth]]
            self._use(needs, 1)
            spent[depth + 1] = spent[depth] + price
            depth += 1
            picks[depth] = -1

    def _next(self, depth: int, pick: int, below: int) -> int:
        """The next stack of this valve that costs less than `below` and for which there are parts; -1 when there is none."""
        options, left = self.options[depth], self.left
        while pick < len(options) and options[pick][0] < below:
            short = False
            for name, count in options[pick][1]:
                if left[name] < count:
                    short = True
            if not short:
                return pick
            pick += 1
        return -1

    def _use(self, needs: list, times: int) -> None:
        for name, count in needs:
            self.left[name] -= count * times
