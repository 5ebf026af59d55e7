"""The demo's told builds as the kernel sees them, without a database: stamped as the server would."""

from __future__ import annotations

from functools import lru_cache

from catalogue import library
from kernel.door import answer

from demo import clock, diary, world

MIDNIGHT = 1_764_028_800_000
METRIC = {"length": "mm", "torque": "N.m"}
THOU = {"length": "thou", "torque": "lbf.ft"}
ROLES = {slug: role for slug, _, role, _ in world.PEOPLE}
NAMES = {slug: name for slug, name, _, _ in world.PEOPLE}


@lru_cache(maxsize=1)
def told(midnight: int = MIDNIGHT) -> dict[str, list[dict]]:
    """Events by build, with `seq`, `who` and `role`."""
    return {file["key"]: [event | {"seq": seq, "who": who, "role": ROLES[who]} for seq, (who, event) in enumerate(written(file, midnight), 1)]
            for file in diary.files()}  # fmt: skip


def written(file: dict, midnight: int = MIDNIGHT) -> list[tuple[str, dict]]:
    """(who, event) of one file, in the order in which they happened."""
    return [(who, event) for who, batch in diary.batches(file, midnight) for event in batch]


class Shown:
    """One told build, asked through the kernel's door."""

    def __init__(self, key: str, units: dict = THOU):
        self.events, self.units = told()[key], units
        body = self.events[0]["body"]
        self.procedure = library.load_all()[body["procedure"], body["revision"]]

    def ask(self, op: str, **more) -> dict:
        found = answer({"op": op, "procedure": self.procedure, "events": [dict(event) for event in self.events], "people": NAMES,
                        "units": self.units, "now": clock.moment(MIDNIGHT, 0, "09:00"), **more})  # fmt: skip
        assert not found.get("error"), found
        return found

    def status(self, step: str) -> str:
        return next(s["status"] for s in self.ask("overview")["steps"] if s["id"] == step)

    def offers(self, step: str) -> dict[str, dict]:
        return {offer["kind"]: offer for offer in self.ask("step", step=step)["offers"]}

    def bodies(self, kind: str) -> list[dict]:
        return [event["body"] for event in self.events if event["type"] == kind]

    def by_level(self, *levels: str) -> list[dict]:
        return [finding for finding in self.ask("review")["findings"] if finding["level"] in levels]
