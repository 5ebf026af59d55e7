"""Each solver under the phone's Python, for eight cylinders or sixteen valves, in benches that make it work.

Printed: the median of several different benches, JSON in and out included, and the slowest of them four times over: what a
phone at a quarter of this machine's speed would take. The goal for a phone is 100 ms. Nothing is asserted here.
"""

import json
import random
import statistics
import time
from pathlib import Path

from tests.bench.report import report, row
from tests.kernel_two_runtimes.phone_python import PhonePython

SLOWER, TIMES, SEEDS = 4, 5, 12
TENTH, THOU, MICRON = 2540, 25400, 1000
BILLION = 1_000_000_000


def match(chance: random.Random, aimed: bool, level: int | None, grain: int = TENTH) -> dict:
    """Eight bores, eight pistons in them and four on the shelf; `grain` 1: figures that share no graduation."""
    bores = [40300 * TENTH + chance.randrange(12) * TENTH + chance.randrange(TENTH) // grain for _ in range(8)]
    pistons = [40258 * TENTH + chance.randrange(12) * TENTH + chance.randrange(TENTH) // grain for _ in range(12)]
    limits = {"low": 38 * TENTH, "high": 46 * TENTH, "aim": 42 * TENTH if aimed else None}
    return {
        "op": "match",
        "figures": [[bore - piston for piston in pistons] for bore in bores],
        "now": list(range(8)),
        "limits": limits,
        "level": level,
    }


def swap(chance: random.Random) -> dict:
    """Eight places, six loose parts, a fit and one beside it."""

    def choice(name: str) -> dict:
        fit = {"value": chance.randrange(90, 120) * TENTH, "low": 100 * TENTH, "high": 109 * TENTH, "aim": 105 * TENTH}
        return {"id": name, "fit": [fit], "also": [{"value": chance.randrange(30, 45), "low": 32, "high": 42, "aim": None}]}

    return {"op": "swap", "places": [[choice(f"own{at}"), *[choice(f"s{n}") for n in range(6)]] for at in range(8)]}


def cut(chance: random.Random) -> dict:
    figures = [
        {"value": chance.randrange(450, 520) * TENTH, "sens": BILLION, "low": 350 * TENTH, "high": 450 * TENTH, "aim": 400 * TENTH} for _ in range(8)
    ]
    return {"op": "cut", "reads": 9000 * THOU, "moves": "down", "figures": figures}


def rings(chance: random.Random) -> dict:
    cuts = [{"turns": chance.randrange(2000, 9000), "gain": chance.randrange(5, 30) * TENTH} for _ in range(64)]
    return {"op": "rings", "gap": 12 * THOU, "limit": {"low": 17 * THOU, "high": 20 * THOU, "aim": 18 * THOU}, "cuts": cuts}


def buckets(chance: random.Random, shelf: int) -> dict:
    """Sixteen valves with lashes all over the place, shims in steps of 0.025 mm."""
    valves = []
    for at in range(16):
        low = 150 * MICRON if at % 2 else 200 * MICRON
        valves.append(
            {
                "id": f"v{at:02}",
                "lash": chance.randrange(5, 45) * 10 * MICRON,
                "shim": (2400 + 25 * chance.randrange(24)) * MICRON,
                "low": low,
                "high": low + 50 * MICRON,
                "aim": low + 20 * MICRON,
            }
        )
    loose = [{"id": f"s{at:02}", "shim": (2400 + 25 * chance.randrange(24)) * MICRON} for at in range(shelf)]
    return {"op": "buckets", "valves": valves, "shelf": loose, "step": 50 * MICRON}


def springs(chance: random.Random, plenty: bool) -> dict:
    """Sixteen springs on locators, with shims and locks for all or for too few of them."""
    slots = [
        {"way": "down", "many": False, "kind": "locator"},
        {"way": "down", "many": True, "kind": "shim"},
        {"way": "up", "many": False, "kind": "lock"},
    ]
    valves = []
    for at in range(16):
        height = chance.choice([1, -1]) * chance.randrange(12, 60) * THOU + 1900 * THOU
        valves.append(
            {
                "height": height,
                "low": 1890 * THOU,
                "high": 1910 * THOU,
                "aim": 1900 * THOU,
                "fitted": [[{"id": f"l{at:02}", "size": 60 * THOU}], [], [{"id": f"k{at:02}", "size": 0}]],
            }
        )
    shelf = [{"id": f"s{size}.{n:02}", "kind": "shim", "size": size * THOU} for size in (15, 30, 60) for n in range(16 if plenty else 3)]
    shelf += [{"id": f"o{n:02}", "kind": "lock", "size": 50 * THOU} for n in range(16 if plenty else 4)]
    return {"op": "springs", "slots": slots, "valves": valves, "shelf": shelf}


def springs_of_many_sizes(chance: random.Random) -> dict:
    """The same, with every locator and lock read on a gauge: no two parts of one size."""
    request = springs(chance, True)
    for at, valve in enumerate(request["valves"]):
        valve["fitted"][0][0]["size"] += at * TENTH
        valve["fitted"][2][0]["size"] += at * TENTH
    for at, part in enumerate(request["shelf"]):
        part["size"] += at * TENTH
    return request


def length(chance: random.Random) -> dict:
    return {"op": "length", "wanted": [chance.randrange(7780, 7830) * THOU for _ in range(16)], "step": 50 * THOU}


def turns(chance: random.Random) -> dict:
    return {
        "op": "turns",
        "figure": chance.randrange(5, 50) * THOU,
        "limit": {"low": 16 * THOU, "high": 20 * THOU, "aim": 18 * THOU},
        "pitch": 50 * THOU,
        "ratio": 1_500_000,
    }


BENCHES = (
    ("match: 8 bores, 12 pistons, to the aim", lambda chance: match(chance, True, None)),
    ("match: the same, to the aim and level", lambda chance: match(chance, True, 3 * TENTH)),
    ("match: the same, levelled without an aim", lambda chance: match(chance, False, 2 * TENTH)),
    ("match: to the aim and level, figures off any graduation", lambda chance: match(chance, True, 3 * TENTH, 1)),
    ("swap: 8 places, 6 loose parts", swap),
    ("cut: 1 point under 8 figures", cut),
    ("rings: 1 ring after 64 cuts", rings),
    ("buckets: 16 valves, 8 loose shims", lambda chance: buckets(chance, 8)),
    ("buckets: 16 valves, 60 loose shims", lambda chance: buckets(chance, 60)),
    ("springs: 16 valves, parts for all", lambda chance: springs(chance, True)),
    ("springs: 16 valves, too few parts", lambda chance: springs(chance, False)),
    ("springs: 16 valves, sizes all different", springs_of_many_sizes),
    ("length: 16 pushrods", length),
    ("turns: 1 screw", turns),
)


def spent(phone: PhonePython) -> int:
    """Nanoseconds that the phone's Python has had of the processor, so that others on the machine do not count; the clock's
    where the system does not say."""
    try:
        return int((Path("/proc") / str(phone.process.pid) / "schedstat").read_text().split()[0])
    except (OSError, ValueError, IndexError):
        return time.perf_counter_ns()


def milliseconds(phone: PhonePython, request: dict) -> float:
    """The quickest of a few calls: the first finds the machine cold."""
    text, found = json.dumps(request), []
    for _ in range(TIMES):
        began = spent(phone)
        answer = phone.call(text)
        found.append((spent(phone) - began) / 1_000_000)
        assert not answer.startswith('{"error"'), answer
    return min(found)


def main() -> None:
    phone = PhonePython()
    rows = []
    for name, make in BENCHES:
        took = [milliseconds(phone, make(random.Random(seed))) for seed in range(SEEDS)]
        rows.append(row(f"{name}: median", statistics.median(took), "ms"))
        rows.append(row(f"{name}: slowest, at 1/{SLOWER} of the speed", max(took) * SLOWER, "ms", "<= 100"))
    phone.stop()
    report("solver_time", rows)


if __name__ == "__main__":
    main()
