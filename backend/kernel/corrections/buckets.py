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
    """Every shim in hand that could be of use, the fitted ones first and in the order of the valves. Of equal loose ones no
    more than there are valves they could serve."""
    shims = [{"id": valve["id"], "shim": valve["shim"]} for valve in valves]
    left: dict = {}
    for shim in merge_sort(shelf, lambda s: s["id"]):
        size = shim["shim"]
        if size not in left:
            left[size] = len([i for i in range(len(valves)) if buys[i] is None or _serves(valves[i], size)])
        left[size] -= 1
        if left[size] >= 0:
            shims.append(shim)
    names: dict = {}
    for shim in valves + shelf:
        if shim["id"] in names:
            raise ValueError("Shim " + shim["id"] + " is named twice.")
        names[shim["id"]] = True
    return shims


def _lash(valve: dict, shim: int | None) -> int:
    """The lash with this shim; a valve whose shim was never measured keeps it."""
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
    sizes: dict = {None: True}
    for size in [shim["shim"] for shim in shims] + buys:
        sizes[size] = True
    offs = [_by_size(valve, sizes) for valve in valves]
    step = common_step([o for row in offs for o in row.values()])
    square = count + 1
    buy = (count * max([(o // step) * (o // step) for row in offs for o in row.values()] + [0]) + 1) * square
    out = buy * (count + 1)
    never = out * (count + 1)
    table = []
    for i in range(count):
        price = _prices(valves[i], offs[i], step, square, out)
        row = [never if valves[i]["shim"] is None or shim["shim"] is None else price[shim["shim"]] + 1 for shim in shims]
        row[i] = price[valves[i]["shim"]]
        table.append(row + [never if buys[i] is None else buy + price[buys[i]] + 1] * count)
    return table


def _by_size(valve: dict, sizes: dict) -> dict:
    """How far each size would leave this valve from the wanted lash; a valve whose shim is not measured keeps it."""
    if valve["shim"] is None:
        return {None: off(valve["lash"], valve)}
    return {size: off(_lash(valve, size), valve) for size in sizes if size is not None}


def _prices(valve: dict, offs: dict, step: int, square: int, out: int) -> dict:
    found = {}
    for size in offs:
        o = offs[size] // step
        found[size] = o * o * square + (out if excess(_lash(valve, size), valve) else 0)
    return found


def _answer(valves: list, places: list) -> dict:
    used = [place["id"] for place in places]
    out = [i for i in range(len(valves)) if excess(places[i]["lash"], valves[i])]
    return {"places": places, "buy": counted([place["shim"] for place in places if place["id"] is None]), "out": out, "cures": not out,
            "spare": [valve["id"] for valve in valves if valve["id"] not in used],
            "moved": [i for i in range(len(valves)) if places[i]["id"] != valves[i]["id"]]}
