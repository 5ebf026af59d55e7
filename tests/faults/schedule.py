"""Schedules: what happens to a shop and its phones, drawn from a seed. A step is plain data, so that a failing schedule can
be shortened, written down and played again.
"""

from __future__ import annotations

import random

BUILDS = ("b-boat", "b-hill")
NETWORKS = (
    "ok", "ok", "ok", "lost", "refused", "reply_lost", "reply_refused", "twice", "late", "late_reply", "truncated",
    "reply_truncated", "page", "page_401", "page_413", "stall", "s400", "s413", "s429", "s500", "s502",
)  # fmt: skip
YEAR_MS = 365 * 86_400_000


def first_steps(pick: random.Random) -> list[dict]:
    """The phones, who is on each, and whether its browser has locks."""
    steps = []
    for phone in range(pick.randint(1, 3)):
        people = pick.choice((["marek"], ["ines"], ["marek", "juno"], ["juno", "marek"], ["juno"]))
        steps.append({"op": "phone", "phone": phone, "people": people, "locks": pick.random() < 0.7, "code": pick.choice(("now", "now", "now", "old"))})
    return steps


def one_step(pick: random.Random, phones: int) -> dict:
    ops, weights = zip(*WEIGHTS.items())
    op = pick.choices(ops, weights)[0]
    step = {"op": op, "phone": pick.randrange(phones), "tab": pick.choice((0, 0, 0, 1))}
    return step | MORE.get(op, lambda p: {})(pick)


WEIGHTS = {
    "append": 30, "tick": 18, "net": 14, "deliver": 6, "nudge": 4, "kill": 4, "quota": 4, "open": 5, "close": 1, "evict": 0.7, "clock": 2,
    "expire": 1.5, "login": 2.5, "role": 1, "active": 1, "give": 2, "backup": 2, "restore": 1.5, "db": 4, "job": 5, "keep": 0.6,
    "putback": 0.4, "code": 1, "old_server": 0.7, "luck": 1,
}  # fmt: skip

MORE = {
    "append": lambda p: {"build": p.choice(BUILDS), "what": p.choice(("reading",) * 8 + ("open", "open", "strike", "unknown", "broken", "big", "huge")), "n": p.randint(1, 4), "who": p.randrange(2)},
    "tick": lambda p: {"ms": p.choice((10, 1_000, 4_000, 16_000, 40_000))},
    "net": lambda p: {"mode": p.choice(NETWORKS)},
    "nudge": lambda p: {"why": p.choice(("visible", "online", "asked", "clock"))},
    "kill": lambda p: {"at": p.randint(1, 40)},
    "quota": lambda p: {"at": p.randint(1, 25), "times": p.choice((1, 1, 5, 60)), "name": p.choice(("QuotaExceededError", "AbortError", "UnknownError"))},
    "clock": lambda p: {"skew": p.choice((0, YEAR_MS, -YEAR_MS, 60_000))},
    "expire": lambda p: {"who": p.choice(("ines", "marek", "juno"))},
    "login": lambda p: {"who": p.randrange(2)},
    "role": lambda p: {"who": "marek", "role": p.choice(("builder", "apprentice", "crew_chief"))},
    "active": lambda p: {"who": p.choice(("marek", "juno")), "active": p.random() < 0.5},
    "give": lambda p: {"who": p.choice(("marek", "juno")), "build": p.choice(BUILDS)},
    "restore": lambda p: {"said": p.random() < 0.5},
    "db": lambda p: {"at": p.randint(1, 30), "kill": p.random() < 0.5},
    "job": lambda p: {"how": p.choice(("run", "run", "twice", "drop", "shuffle", "killed")), "at": p.randint(1, 12)},
    "code": lambda p: {"code": p.choice(("now", "now", "old"))},
    "old_server": lambda p: {"on": p.random() < 0.5},
    "luck": lambda p: {"luck": p.random()},
}  # fmt: skip


def drawn(seed: int, steps: int = 40) -> list[dict]:
    pick = random.Random(seed)
    start = first_steps(pick)
    return start + [one_step(pick, len(start)) for _ in range(pick.randint(steps // 3, steps))]
