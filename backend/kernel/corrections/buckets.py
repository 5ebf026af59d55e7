"""The shuffle of bucket shims over all valves: those in hand first, and what is left to buy.

Law: lash falls by what the shim grows, so lash + shim is the room at a valve and stays. Any shim may go to any valve, from
another valve as well as from the shelf. Which shuffle is best:
  1. the fewest valves out;
  2. the fewest shims to buy;
  3. the least sum of squared deviations from the wanted lash;
  4. the fewest valves that change.
The answer is the best of all shuffles. A shim nobody measured stays where it is.

Common practice, no published source.
"""
from __future__ import annotations

from ..sorting import merge_sort
from .assignment import assign
from .length import counted, nearest
from .within import common_step, excess, off, target


def shuffle(valves: list, shelf: list, step: int) -> dict:
    """Choose a shim for each valve. All lengths in nm.

    valves  {lash, id, shim, low, high, aim}: lash as read with the shim `id` of thickness `shim` (None: not measured)
    shelf   {id, shim}: loose shims, measured
    step    shims are sold in multiples of it

    Returns {places, buy, spare, moved, out, cures}: for each valve {id, shim, lash} with `id` None where it is to be bought;
    buy {length, count}, thinnest first; spare the ids of fitted shims that come out and go nowhere; moved and out the numbers
    of the valves that change and that stay out.
    Raises ValueError for a step of nothing or a shim named twice.
    """
    if step <= 0:
        raise ValueError("Shims to buy need a step above nothing.")
    buys = [_to_buy(valve, step) for valve in valves]
    shims = _shims(valves, shelf, buys)
    table = _table(valves, shims, buys)
    columns = assign(table)[0] if valves else []
    places = []
    for i in range(len(valves)):
        at = columns[i]
        name, shim = (shims[at]["id"], shims[at]["shim"]) if at < len(shims) else (None, buys[i])
        places.append({"id": name, "shim": shim, "lash": _lash(valves[i], shim)})
    return _answer(valves, places)


def _shims(valves: list, shelf: list, buys: list) -> list:
    """Every shim in hand that could be of use, the fitted ones first and in the order of the valves."""
    shims, names = [], {}
    for valve in valves:
        shims.append({"id": valve["id"], "shim": valve["shim"]})
    alike: dict = {}
    for shim in merge_sort(shelf, lambda s: s["id"]):
        alike[shim["shim"]] = alike.get(shim["shim"], 0) + 1
        if alike[shim["shim"]] <= len(valves) and any([_serves(valves[i], shim["shim"]) or buys[i] is None for i in range(len(valves))]):
            shims.append(shim)
    for shim in shims:
        if shim["id"] in names:
            raise ValueError("Shim " + shim["id"] + " is named twice.")
        names[shim["id"]] = True
    return shims


def _lash(valve: dict, shim: int | None) -> int:
    """The lash with this shim; one that was never measured is the one it was read with."""
    return valve["lash"] if valve["shim"] is None or shim is None else valve["lash"] + valve["shim"] - shim


def _serves(valve: dict, shim: int) -> bool:
    return valve["shim"] is not None and not excess(_lash(valve, shim), valve)


def _to_buy(valve: dict, step: int) -> int | None:
    """The size to buy for a valve: in, then nearest to the wanted lash, then the thinner; None where none would be in."""
    wanted = target(valve)
    if valve["shim"] is None or wanted is None:
        return None
    about = nearest(valve["lash"] + valve["shim"] - wanted, step)
    best = None
    for size in (about - step, about, about + step):
        if size > 0 and _serves(valve, size):
            key = (abs(off(_lash(valve, size), valve)), size)
            if best is None or key < best:
                best = key
    return None if best is None else best[1]


def _table(valves: list, shims: list, buys: list) -> list:
    """Rules 1 to 4 folded into one integer a place: a row for each valve; a column for each shim in hand, then one for each purchase."""
    count = len(valves)
    offs = [[None if not _may(valves, shims, i, at) else off(_lash(valves[i], shims[at]["shim"]), valves[i])
             for at in range(len(shims))] for i in range(count)]
    bought = [None if buys[i] is None else off(_lash(valves[i], buys[i]), valves[i]) for i in range(count)]
    known = [o for row in offs + [bought] for o in row if o is not None]
    step = common_step(known)
    square = count + 1
    buy = (count * max([(o // step) * (o // step) for o in known] + [0]) + 1) * square
    out = buy * (count + 1)
    never = out * (count + 1)
    table = []
    for i in range(count):
        row = []
        for at in range(len(shims)):
            o = offs[i][at]
            row.append(never if o is None else _squared(o, step) * square + (0 if at == i else 1)
                       + (out if excess(_lash(valves[i], shims[at]["shim"]), valves[i]) else 0))
        o = bought[i]
        table.append(row + [never if o is None else buy + _squared(o, step) * square + 1] * count)
    return table


def _squared(o: int, step: int) -> int:
    return (o // step) * (o // step)


def _may(valves: list, shims: list, i: int, at: int) -> bool:
    """A shim may go anywhere when it and the one it replaces are measured; otherwise it stays."""
    return at == i or (valves[i]["shim"] is not None and shims[at]["shim"] is not None)


def _answer(valves: list, places: list) -> dict:
    used = [place["id"] for place in places]
    out = [i for i in range(len(valves)) if excess(places[i]["lash"], valves[i])]
    return {"places": places, "buy": counted([place["shim"] for place in places if place["id"] is None]), "out": out, "cures": not out,
            "spare": [valve["id"] for valve in valves if valve["id"] not in used],
            "moved": [i for i in range(len(valves)) if places[i]["id"] != valves[i]["id"]]}
