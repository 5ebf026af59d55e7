"""Random requests for every solver behind the door: small benches with ties, gaps and misfits, the same for the same seed."""

from __future__ import annotations

import random

TENTH = 2540
BILLION = 1_000_000_000


def limit(chance: random.Random, low: int, wide: int) -> dict:
    low, high = chance.choice([(low, low + wide), (low, low + wide), (low, None), (None, low + wide)])
    return {"low": low, "high": high, "aim": chance.choice([None, (low or high or 0) + (0 if low is None else wide // 3)])}


def match(chance: random.Random, stations: int = 0, spare: int | None = None) -> dict:
    stations = stations or chance.randrange(1, 6)
    parts = stations + (chance.randrange(3) if spare is None else spare)
    grain = chance.choice([1, TENTH])
    figures = [[chance.choice([None, *range(8)][0 if at != part else 1:]) for part in range(parts)] for at in range(stations)]
    figures = [[None if f is None else (f * 5 + chance.randrange(3)) * grain for f in row] for row in figures]
    one = limit(chance, 10 * grain, 15 * grain)
    return {"op": "match", "figures": figures, "now": list(range(stations)), "limits": one, "level": chance.choice([None, 12 * grain])}


def swap(chance: random.Random) -> dict:
    fit, also = limit(chance, 100, 9), limit(chance, 30, 10)

    def choice(name: str) -> dict:
        return {"id": name, "fit": [fit | {"value": chance.randrange(90, 120)} for _ in range(4)], "also": [also | {"value": chance.randrange(25, 45)} for _ in range(4)]}

    return {"op": "swap", "places": [[choice(f"own{at}"), *[choice(f"s{n}") for n in range(3)]] for at in range(chance.randrange(1, 3))]}


def cut(chance: random.Random) -> dict:
    figures = [limit(chance, 30, 10) | {"value": chance.randrange(60), "sens": chance.choice([BILLION, -BILLION, BILLION * 2 // 3])} for _ in range(chance.randrange(1, 4))]
    return {"op": "cut", "reads": chance.randrange(1000), "moves": chance.choice(["up", "down"]), "figures": figures}


def rings(chance: random.Random) -> dict:
    cuts = [{"turns": chance.randrange(500, 9000), "gain": chance.randrange(-2, 30) * TENTH} for _ in range(chance.randrange(4))]
    return {"op": "rings", "gap": chance.randrange(50, 220) * TENTH, "limit": {"low": 170 * TENTH, "high": 200 * TENTH, "aim": chance.choice([None, 180 * TENTH])}, "cuts": cuts}


def buckets(chance: random.Random, valves: int = 0) -> dict:
    heads = []
    for at in range(valves or chance.randrange(1, 7)):
        low = chance.choice([150000, 200000])
        shim = chance.choice([None, *[2000000 + 25000 * chance.randrange(40) for _ in range(9)]])
        heads.append({"id": f"v{at}", "lash": chance.randrange(5, 40) * 10000, "shim": shim, "low": low, "high": low + 50000, "aim": chance.choice([None, low + 20000])})
    shelf = [{"id": f"s{at}", "shim": 2000000 + 25000 * chance.randrange(40)} for at in range(chance.randrange(8))]
    return {"op": "buckets", "valves": heads, "shelf": shelf, "step": chance.choice([50000, 20000])}


def springs(chance: random.Random) -> dict:
    slots = [{"way": "down", "many": True, "kind": "shim"}, {"way": "up", "many": False, "kind": "lock"}]
    sizes = {"shim": [381000, 762000, 1524000], "lock": [-1270000, 0, 1270000]}
    valves = []
    for at in range(chance.randrange(1, 5)):
        fitted = [[{"id": f"f{at}.{n}", "size": chance.choice(sizes["shim"])} for n in range(chance.randrange(2))], [{"id": f"k{at}", "size": chance.choice([None, 0, 1270000])}]]
        valves.append({"height": 47000000 + 127000 * chance.randrange(20), "low": 48006000, "high": 48514000, "aim": 48260000, "fitted": fitted})
    shelf = [{"id": f"s{n}", "kind": kind, "size": chance.choice(sizes[kind])} for n, kind in enumerate(chance.choices(["shim", "lock"], k=chance.randrange(7)))]
    if chance.random() < 0.4:  # read on a gauge: of so many sizes that valves are served one after the other
        shelf += [{"id": f"g{n}", "kind": chance.choice(["shim", "lock"]), "size": chance.randrange(100, 2000) * TENTH // 4} for n in range(24)]
    return {"op": "springs", "slots": slots, "valves": valves, "shelf": shelf}


def length(chance: random.Random) -> dict:
    return {"op": "length", "wanted": [chance.randrange(197000000, 200000000) for _ in range(chance.randrange(1, 16))], "step": chance.choice([1270000, 500000])}


def turns(chance: random.Random) -> dict:
    one = {"low": 406400, "high": 508000, "aim": chance.choice([None, 457200])}
    return {"op": "turns", "figure": chance.randrange(-400000, 1400000), "limit": one, "pitch": chance.choice([1270000, -1058333]), "ratio": chance.choice([None, 1500000])}


def bobweight(chance: random.Random) -> dict:
    def weights() -> list:
        return [chance.randrange(10**9) for _ in range(4)]

    return {"op": "bobweight", "rotating": weights(), "reciprocating": weights(), "oil": chance.randrange(10**7), "factor": chance.randrange(10**6)}


def timing(chance: random.Random) -> dict:
    def angles() -> dict:
        return {"opens": chance.randrange(-30_000_000, 60_000_000), "closes": chance.randrange(-10_000_000, 90_000_000)}

    return {"op": "timing", "intake": angles(), "exhaust": angles(), "wanted": chance.choice([None, 108_000_000])}


MAKERS = {"match": match, "swap": swap, "cut": cut, "rings": rings, "buckets": buckets, "springs": springs, "length": length, "turns": turns,
          "bobweight": bobweight, "timing": timing}  # fmt: skip
