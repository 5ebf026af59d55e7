"""The state of a build: a fold over its events.

Law: state comes from events and the procedure alone, in fold order; equal events give equal state however they arrived.
One function applies each type of event. An event that cannot be applied is flagged and leaves the state unchanged.
"""
from __future__ import annotations

from .apply import APPLY, VERSIONS
from .apply.common import RECORDERS
from .disturb import Disturbances
from .events import event_id, in_order, order_key, shape_problem, spot_of
from .fits import figure, point_at
from .memo import Memo
from .sentence import Sentence


class Build:
    """One build, folded. `add` takes more events; readers take what they need from the fields."""

    def __init__(self, procedure: dict, events: list[dict] | None = None):
        self.procedure = procedure
        self.steps = {step["id"]: step for step in procedure["steps"]}
        self.events: dict[str, dict] = {}
        self._start()
        self.add(events or [])

    def _start(self) -> None:
        self.info = {"id": "", "name": "", "duty": "", "note": ""}
        self.readings: dict[str, list[dict]] = {}
        self.heads: dict[str, list[dict]] = {}
        self.ticks: dict[str, list[dict]] = {}
        self.pulls: dict[str, list[dict]] = {}
        self.parts: dict[str, dict] = {}
        self.held: dict[str, list[str]] = {}
        self.notes: dict[str, dict] = {}
        self.choices: dict[str, dict] = {}
        self.filed: dict[str, list[dict]] = {}
        self.limits: dict[str, dict[str, dict]] = {}
        self.concessions: list[dict] = []
        self.flags: list[dict] = []
        self.unknown = 0
        self.applied = 0
        self.disturbances = Disturbances()
        self.memo = Memo(self.procedure)
        self.last: dict | None = None
        self.struck: dict[str, dict] = {}

    def add(self, events: list[dict]) -> None:
        """Take in events. Those that sort before what is here, and strikes, cost a new fold from the start."""
        fresh = self._fresh(events)
        if not fresh:
            return
        late = self.last is not None and order_key(fresh[0]) < order_key(self.last)
        if late or any([e["type"] == "strike" for e in fresh]):
            self._start()
            fresh = in_order([self.events[key] for key in self.events])
            self._gather_strikes(fresh)
        for event in fresh:
            self.memo.forget(event)
            self._apply(event)
            self.applied += 1
            self.last = event

    def _fresh(self, events: list[dict]) -> list[dict]:
        out = []
        for event in events:
            key = event_id(event)
            if key in self.events:
                self._acknowledge(self.events[key], event)
            else:
                self.events[key] = event
                out.append(event)
        return in_order(out)

    def _acknowledge(self, mine: dict, other: dict) -> None:
        for field in ("seq", "who", "role"):
            if other.get(field) is not None:
                mine[field] = other[field]

    def acknowledge(self, seqs: list) -> None:
        """Note the server's positions: a list of [event id, seq]."""
        for key, seq in seqs:
            if key in self.events:
                self.events[key]["seq"] = seq

    def _gather_strikes(self, events: list[dict]) -> None:
        for event in events:
            if event["type"] != "strike" or shape_problem(event):
                continue
            target = self.events.get(event["body"]["event"])
            if target is not None and target["type"] != "strike" and _may_strike(event, target):
                self.struck[event_id(target)] = event

    def _apply(self, event: dict) -> None:
        apply = APPLY.get(event["type"])
        if apply is None or event.get("v", 1) > VERSIONS[event["type"]]:
            self.unknown += 1
            return
        problem = shape_problem(event)
        if problem:
            self.flag(event, problem[0], problem[1], True)
            return
        try:
            apply(self, event, event["body"])
        except Sentence as error:
            self.flag(event, error.key, error.parts, False)

    def once(self, key: tuple | str, work_out):
        """What `work_out()` gives, worked out once until an event may have changed it. The answer is shared: nobody changes it."""
        return self.memo.once(key, work_out)

    def flag(self, event: dict, key: str, parts: dict, misshapen: bool) -> None:
        """Note an entry that changes nothing, and why: a sentence of `words/` and what fills it."""
        self.flags.append({"event": event_id(event), "key": key, "parts": parts, "misshapen": misshapen})

    def is_struck(self, event: dict) -> bool:
        return event_id(event) in self.struck

    def slot_parts(self, slot: str, station: str) -> list[str]:
        """Ids of the parts in a slot; a single slot nobody touched holds the part that came with it."""
        spot = spot_of(slot, station)
        if spot in self.held:
            return self.held[spot]
        return [spot] if self.procedure["slots"][slot]["holds"] == "one" else []

    def figure_of(self, kind: str, name: str, station: str) -> dict:
        """The figure of a point or a fit at a station, or its only one where it has no stations."""
        table = self.procedure["points"] if kind == "point" else self.procedure["fits"]
        place = station if table[name]["group"] else ""
        return point_at(self, spot_of(name, place)) if kind == "point" else figure(self, name, place)

    def stations(self, group: str) -> list[str]:
        """Station ids of a group, in the order of the plan; one empty station where there is no group."""
        return [s["id"] for s in self.procedure["groups"][group]["stations"]] if group else [""]


def _may_strike(event: dict, target: dict) -> bool:
    role = event.get("role", "")
    return role in ("owner", "") or (role in RECORDERS and event.get("who") == target.get("who"))
