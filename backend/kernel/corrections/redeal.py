"""Deals whole pairs of shells out anew over all stations at once.

Law: with pairs kept together, "which pair where" is an assignment, and its optimum is found however many exchanges it
takes to get there. A level is met by trying every window of that width that starts at a clearance some pair could leave.
"""
from __future__ import annotations

from ..sorting import merge_sort
from .assignment import assign
from .bench import PAIR, Bench, Deal, present
from .judging import Limits

ONE_OUT = 10 ** 15  # nm; dearer than any sum of excesses
UNKNOWN = 10 ** 18  # nm; dearer than every station out
MOST_WINDOWS = 40


def redeals(bench: Bench, limits: Limits) -> list:
    """The best dealings-out of whole pairs, one for each window; those with unpredicted clearances are left out."""
    count = len(bench.stations)
    table = [[bench.clearance(bench.stations[at], bench.uppers[pair], bench.lowers[pair]) for pair in range(count)]
             for at in range(count)]
    deals, seen = [], []
    for window in _windows(table, limits):
        columns = assign([[_price(table[at][pair], at == pair, window) for pair in range(count)]
                          for at in range(count)])[0]
        if columns in seen or any([table[at][columns[at]] is None for at in range(count)]):
            continue
        seen.append(columns)
        deals.append(_dealt(bench, columns))
    return deals


def _windows(table: list, limits: Limits) -> list:
    windows = [limits]
    if limits.level is None:
        return windows
    starts = {}
    for row in table:
        for clearance in row:
            if clearance is not None and not limits.excess(clearance):
                starts[clearance] = True
    for start in merge_sort(list(starts), lambda clearance: clearance)[:MOST_WINDOWS]:
        high = start + limits.level
        if limits.high is not None:
            high = min(high, limits.high)
        windows.append(Limits(start, high, limits.aim, limits.level))
    return windows


def _price(clearance: int | None, stays: bool, window: Limits) -> int:
    if clearance is None:
        return UNKNOWN
    past = window.excess(clearance)
    return (ONE_OUT if past else 0) + past * 16 + (0 if stays else 1)


def _dealt(bench: Bench, columns: list) -> Deal:
    """The deal in which station number at holds the pair of station number columns[at], by exchanges of two."""
    deal = present(bench)
    for at in range(len(columns)):
        holder = deal.uppers.index(bench.uppers[columns[at]])
        if holder != at:
            deal = deal.exchange(PAIR, at, holder)
    return deal
