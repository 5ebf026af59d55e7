"""Random logs: several phones, right and wrong bodies, positions given to some events and not to others.

They need not make sense at an engine. They must reach every type of event, every refusal, and every order of arrival.
"""

from __future__ import annotations

import random

BUILD = "b-random"
START = 1_764_068_400_000
PEOPLE = {"ines": "Ines", "marek": "Marek", "juno": "Juno", "tomasz": "Tomasz"}
ROLES = {"ines": "owner", "marek": "builder", "juno": "apprentice", "tomasz": "crew_chief"}
TEXTS = ["2.4480", "2.4505", "0.0", "2.4", "24.505", "62.230", "0.0071", "0.010", "7.5", "0.095", "", "1.2.3", "-2.4", "٣"]
UNITS = ["in", "thou", "mm", "ell"]


class LogMaker:
    def __init__(self, seed: int, procedure: dict) -> None:
        self.random = random.Random(seed)
        self.procedure = procedure
        self.events: list[dict] = []
        self.counts: dict[str, int] = {}
        self.parts = ["shim-a", "shim-b", "half-x"]

    def some(self, things):
        return self.random.choice(list(things))

    def station(self, group: str | None) -> str:
        known = [s["id"] for s in self.procedure["groups"][group]["stations"]] if group else [""]
        return self.some([*known, *known, *known, "9"])

    def body(self, kind: str) -> dict:
        make = getattr(self, "body_" + kind.replace(".", "_"))
        body = make()
        if self.random.random() < 0.06 and body:
            body.pop(self.some(body))
        return body

    def body_build_opened(self) -> dict:
        return {"name": "Random", "procedure": self.procedure["procedure"], "revision": 1, "duty": "race", "note": ""}

    def body_reading(self) -> dict:
        point = self.some(self.procedure["points"])
        station = self.station(self.procedure["points"][point].get("group"))
        near = f"2.44{self.random.randint(60, 99)}" if self.random.random() < 0.7 else self.some(TEXTS)
        return {"point": point, "station": station, "text": near, "unit": self.some(["in", "in", *UNITS])}

    def body_contrary_settled(self) -> dict:
        event = self.some(self.events)
        body = event["body"]
        return {"spot": f"{body.get('point', 'main_bore')}@{body.get('station', '1')}", "keep": self.an_event(), "why": "read again"}

    def body_confirm(self) -> dict:
        step = self.some(self.procedure["steps"])
        items = [item["id"] for item in step["confirms"]] or ["nothing"]
        return {"step": step["id"], "item": self.some(items)}

    def body_torque_pulled(self) -> dict:
        with_torque = [step for step in self.procedure["steps"] if step["torque"]]
        step = self.some(with_torque)
        fastener = self.some(step["torque"]["fasteners"])["id"]
        return {"step": step["id"], "pass": self.random.randint(1, 4), "fastener": fastener, "again": self.random.random() < 0.2}

    def body_part_added(self) -> dict:
        size = {"text": self.some(["0.005", "0.0951", "x"]), "unit": "in"} if self.random.random() < 0.6 else None
        return {"part": self.some(self.parts), "kind": self.some(self.procedure["parts"]), "title": "spare", "size": size}

    def body_part_noted(self) -> dict:
        cost = self.some([None, {"text": "12.50", "unit": "EUR"}, {"text": "dear", "unit": "EUR"}, {"text": "3"}])
        belongs = self.some([None, {"slot": self.some(self.procedure["slots"]), "station": "2"}, {"slot": 7}])
        state = self.some(["new", "used", "reworked", "", "odd"])
        return {"part": self.some([*self.parts, "main_shell_upper@1"]), "mark": "A7", "state": state, "cost": cost, "condition": "", "belongs": belongs}

    def body_choice_made(self) -> dict:
        choices = self.procedure.get("choices") or {}
        choice = self.some([*choices, "nothing"])
        options = [option["id"] for option in choices[choice]["options"]] if choice in choices else []
        return {"choice": choice, "option": self.some([*options, "neither"])}

    def body_ring_filed(self) -> dict:
        point = self.some(self.procedure["points"])
        station = self.station(self.procedure["points"][point].get("group"))
        return {"point": point, "station": station, "turns": self.some(["3", "2.5", "some"])}

    def body_part_measured(self) -> dict:
        spots = [*self.parts, "main_shell_upper@1", "main_shell_lower@4"]
        return {"part": self.some(spots), "text": self.some(["0.0948", "0.0951", "0.005", "9"]), "unit": "in"}

    def body_parts_put(self) -> dict:
        slot = self.some(self.procedure["slots"])
        group = self.procedure["slots"][slot].get("group")
        held = self.random.sample([*self.parts, f"{slot}@1", f"{slot}@4"], self.random.randint(0, 2))
        return {"puts": [{"slot": slot, "station": self.station(group), "parts": held}], "why": "trial"}

    def body_step_undone(self) -> dict:
        return {"step": self.some(self.procedure["steps"])["id"], "why": "lifted"}

    def body_limit_set(self) -> dict:
        low, high, aim = (self.some(texts) for texts in (["0.0018", None], ["0.0031", None, "z"], ["0.0025", None]))
        authority = self.some(["maker", "shop", "table"])
        return {
            "limit": self.some(self.procedure["limits"]),
            "authority": authority,
            "low": low,
            "high": high,
            "aim": aim,
            "unit": "in",
            "source": "sheet",
        }

    def body_concession(self) -> dict:
        fit = self.some(self.procedure["fits"])
        station = self.station(self.procedure["fits"][fit].get("group"))
        value = self.some([None, 0, 50800, 63500])
        return {"fit": fit, "station": station, "value": value, "reason": "spare engine", "granted_by": "Ines"}

    def body_concession_countersigned(self) -> dict:
        return {"event": self.an_event(), "note": "seen"}

    def body_strike(self) -> dict:
        return {"event": self.an_event(), "why": "slip"}

    def body_later_kind(self) -> dict:
        return {"anything": [1, {"deep": None}]}

    def an_event(self) -> str:
        event = self.some(self.events)
        return f"{event['dev']}:{event['n']}"

    def write(self, kind: str) -> None:
        dev = self.some(["a", "b", "c"]) * 32
        who = self.some(PEOPLE)
        self.counts[dev] = self.counts.get(dev, 0) + 1
        seen = self.random.randint(0, len(self.events))
        at = START + self.random.randint(-(10**9), 10**9)
        self.events.append(
            {
                "dev": dev,
                "n": self.counts[dev],
                "build": BUILD,
                "type": kind,
                "v": 1,
                "at": at,
                "seen": seen,
                "who": who,
                "role": ROLES[who],
                "body": self.body(kind),
            }
        )

    def log(self, length: int) -> list[dict]:
        self.write("build.opened")
        kinds = [name.removeprefix("body_") for name in dir(self) if name.startswith("body_")]
        dotted = [kind.replace("_", ".", 1) for kind in kinds]
        while len(self.events) < length:
            self.write(self.some([*dotted, "reading", "reading", "reading", "confirm", "torque.pulled", "torque.pulled"]))
        return self.events


def requests(seed: int, procedure: dict, length: int) -> list[dict]:
    """A phone's day: open with part of the log, take the rest in batches and out of order, acknowledge, look at everything."""
    maker = LogMaker(seed, procedure)
    events = maker.log(length)
    sent = events[: maker.random.randint(1, length)]
    for seq, event in enumerate(sent, start=1):
        event["seq"] = seq
    arriving = events[:]
    maker.random.shuffle(arriving)
    cut, later = maker.random.randint(1, length), maker.random.randint(1, length)
    out = [{"op": "open", "build": BUILD, "procedure": procedure, "people": PEOPLE, "events": arriving[:cut]}]
    out += [{"op": "add", "build": BUILD, "events": batch} for batch in (arriving[cut : cut + later], arriving[cut + later :], arriving[:5])]
    pending = [event for event in events if "seq" not in event]
    seqs = [[f"{event['dev']}:{event['n']}", len(sent) + place] for place, event in enumerate(pending[:3], start=1)]
    out.append({"op": "acked", "build": BUILD, "seqs": seqs})
    return out + looks(maker)


def looks(maker: LogMaker) -> list[dict]:
    out = []
    for units in ({"length": "thou", "torque": "lbf.ft"}, {"length": "mm", "torque": "N.m"}):
        view = {"build": BUILD, "units": units, "now": START + 10**9}
        out += [{"op": op, **view} for op in ("fold", "overview", "review", "status")]
        out += [{"op": "step", "step": step["id"], **view} for step in maker.procedure["steps"]]
        for _ in range(3):
            draft = {"type": "reading", "body": maker.body_reading()}
            out.append({"op": "weigh", "build": BUILD, "units": units, "draft": draft})
    return out
