"""What a builder could do with bearing shells to bring every clearance in and level.

Law: clearance = room(station) - upper wall - lower wall, so a move is predicted only where walls, bare bores or earlier
readings say what it does (walls.py). What cannot be predicted is offered as a trial, and the readings after it teach the
difference for next time. An exchange of pairs keeps the sum of the two clearances, known walls or not.

Common practice, no published source: exchange the shells of the tightest and the loosest station and read both again.
"""
from __future__ import annotations

from ..sorting import merge_sort
from .bench import PAIR, Bench, Deal, present
from .judging import Limits
from .shell_effort import best_effort
from .shell_search import CERTAIN, cures
from .to_order import to_order

AT_MOST = 3  # proposals; a builder chooses between a few


def propose(stations: list, uppers: dict, lowers: dict, shelf: list, walls: dict, rooms: dict, readings: list,
            low: int | None, high: int | None, aim: int | None = None, level: int | None = None,
            certain: int = CERTAIN) -> list:
    """Return proposals, best first; [] when everything read is in and level already. All lengths in nm.

    stations  ids in the order of the engine
    uppers    {station: id of the upper half it holds}; lowers likewise
    shelf     loose halves {id, kind: "upper" | "lower" | "either"}; those without a wall in `walls` are left alone
    walls     {id of half: measured wall}, fitted and loose
    rooms     {station: bare housing bore - journal} where the bare bore was read
    readings  {station, upper, lower, clearance}, oldest first, all of the same housings and journals; the halves sitting
              at a station now should have been read there. A station whose clearance is not known takes no part.
    low, high, level may be None (no limit); without `aim` the middle of the limits is aimed at.
    certain   up to how many moves the fewest are searched for without gaps

    A proposal is {kind, moves, placing, predicted, cures, order, sum}:
    kind      "exchange", "shelf" (uses a shelf half), "trial" (not predicted) or "none" (nothing on hand helps)
    moves     [{what: "pair" | "upper" | "lower", a: station, b: station or None, part: shelf id or None}], to be done in
              this order
    placing   {station: [upper id, lower id]} of the stations that change
    predicted {station: clearance} of all stations taking part; None at the two stations of a trial
    cures     True when every prediction is in and level
    order     [{station, by}] with kinds that do not cure: by how much the sum of both walls at that station would have to
              grow (negative: shrink) after the moves are done; [] with a trial
    sum       of a trial: the sum of the two clearances, which the exchange keeps; otherwise None
    """
    limits = Limits(low, high, aim, level)
    bench = Bench(stations, uppers, lowers, shelf, walls, rooms, readings)
    now = present(bench)
    if limits.shortfall(now.clearances) == (0, 0):
        return []
    cured = cures(bench, limits, certain)
    if cured:
        return [_predicted(deal, limits) for deal in cured[:AT_MOST]]
    said = _predicted(best_effort(bench, limits), limits)
    trial = None if said["cures"] else _trial(now, limits)
    if trial is None:
        return [said]
    return [trial, said] if said["moves"] else [trial]


def _predicted(deal: Deal, limits: Limits) -> dict:
    stations = deal.bench.stations
    shelf = any([move[3] is not None for move in deal.moves])
    changes = to_order(deal.clearances, limits)
    return {
        "kind": "none" if not deal.moves else "shelf" if shelf else "exchange",
        "moves": _moves(deal), "placing": _placing(deal),
        "predicted": _by_station(stations, deal.clearances),
        "cures": limits.shortfall(deal.clearances) == (0, 0),
        "order": [{"station": stations[at], "by": changes[at]} for at in range(len(changes)) if changes[at]],
        "sum": None,
    }


def _trial(now: Deal, limits: Limits) -> dict | None:
    """The exchange of pairs that would teach and help most: the widest apart first, one of the two out or extreme.

    None when every such exchange is known already, or when the sum of all clearances, which no exchange changes, is
    too small or too large for all to be in.
    """
    clearances, count = now.clearances, len(now.clearances)
    if limits.low is not None and sum(clearances) < limits.low * count:
        return None
    if limits.high is not None and sum(clearances) > limits.high * count:
        return None
    concerned = limits.out(clearances) or _extreme(clearances)
    pairs = []
    for a in range(count):
        for b in range(a + 1, count):
            apart = abs(clearances[a] - clearances[b])
            if apart and (a in concerned or b in concerned) and None in now.exchange(PAIR, a, b).clearances:
                pairs.append((-apart, a, b))
    if not pairs:
        return None
    _, a, b = merge_sort(pairs, lambda pair: pair)[0]
    tried = now.exchange(PAIR, a, b)
    predicted = list(clearances)
    predicted[a] = predicted[b] = None
    return {"kind": "trial", "moves": _moves(tried), "placing": _placing(tried),
            "predicted": _by_station(now.bench.stations, predicted), "cures": False, "order": [],
            "sum": clearances[a] + clearances[b]}


def _extreme(clearances: list) -> list:
    return [at for at in range(len(clearances)) if clearances[at] in (min(clearances), max(clearances))]


def _by_station(stations: list, values: list) -> dict:
    return {stations[at]: values[at] for at in range(len(stations))}


def _moves(deal: Deal) -> list:
    stations = deal.bench.stations
    return [{"what": what, "a": stations[a], "b": None if b is None else stations[b], "part": part}
            for what, a, b, part in deal.moves]


def _placing(deal: Deal) -> dict:
    return {deal.bench.stations[at]: [deal.uppers[at], deal.lowers[at]] for at in deal.changed()}
