"""The state of a build: a fold over its events.

Law: state comes from events and the procedure alone, in fold order; equal events give equal state however they arrived.
One function applies each type of event. An event that cannot be applied is flagged and leaves the state unchanged.
"""
from __future__ import annotations

from .about import about_part
from .disturb import Disturbances, step_targets, slot_targets
from .events import event_id, in_order, knew, order_key, quantity_of, shape_problem, spot_of
from .fits import figure, point_at
from .memo import Memo
from .quantity import BadNumber, read

RECORDERS = ("owner", "builder", "apprentice", "")


class Refused(ValueError):
    """An event that cannot be applied; the message is the sentence for its flag."""


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
        apply = _APPLY.get(event["type"])
        if apply is None:
            self.unknown += 1
            return
        problem = shape_problem(event)
        if problem:
            self.flag(event, "This entry could not be used: " + problem + ". It is kept in the record.")
            return
        try:
            apply(self, event, event["body"])
        except (Refused, BadNumber) as error:
            self.flag(event, str(error))

    def once(self, key: tuple | str, work_out):
        """What `work_out()` gives, worked out once until an event may have changed it. The answer is shared: nobody changes it."""
        return self.memo.once(key, work_out)

    def flag(self, event: dict, says: str) -> None:
        self.flags.append({"event": event_id(event), "says": says})

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


def _entry(build: Build, event: dict, targets: list[str]) -> dict:
    return {"event": event, "id": event_id(event), "stale": build.disturbances.unknown_to(event, targets)}


def _must_record(event: dict) -> None:
    if event.get("role", "") not in RECORDERS:
        raise Refused("Only the owner, a builder or an apprentice records work. This entry is kept and not counted.")


def _step(build: Build, name: str) -> dict:
    if name not in build.steps:
        raise Refused("There is no step “" + name + "” in this procedure. The entry is kept.")
    return build.steps[name]


def _opened(build: Build, event: dict, body: dict) -> None:
    if build.info["id"]:
        raise Refused("This build was opened before. The second opening is kept and changes nothing.")
    build.info = {"id": event["build"], "name": body["name"], "duty": body["duty"], "note": body.get("note", "") or ""}


def _reading(build: Build, event: dict, body: dict) -> None:
    _must_record(event)
    point = build.procedure["points"].get(body["point"])
    if point is None or body["station"] not in build.stations(point["group"]):
        raise Refused("This procedure reads nothing at “" + spot_of(body["point"], body["station"]) + "”. The reading is kept.")
    spot = spot_of(body["point"], body["station"])
    number = quantity_of(body["text"], body["unit"], point["dimension"], build.procedure["units"])
    entry = _entry(build, event, [spot])
    entry.update({"spot": spot, "point": body["point"], "station": body["station"], "value": number["value"],
                  "step": number["step"], "text": body["text"], "unit": body["unit"], "tool": body.get("tool") or "",
                  "with": _parts_around(build, body["point"], body["station"]), "order": build.applied})
    build.readings.setdefault(spot, []).append(entry)
    if not build.is_struck(event):
        heads = [h for h in build.heads.get(spot, []) if not knew(event, h["event"])]
        build.heads[spot] = heads + [entry]


def _parts_around(build: Build, point: str, station: str) -> dict:
    """Which parts were in the slots that this point depends on, as `{slot: [part]}`."""
    out = {}
    for name in build.procedure["slots"]:
        slot = build.procedure["slots"][name]
        if point in slot["disturbs"]["points"]:
            same = slot["group"] and slot["group"] == build.procedure["points"][point]["group"]
            if same or not slot["group"]:
                out[name] = build.slot_parts(name, station if same else "")
    return out


def _settled(build: Build, event: dict, body: dict) -> None:
    if build.is_struck(event):
        return
    heads = build.heads.get(body["spot"], [])
    kept = [h for h in build.readings.get(body["spot"], []) if h["id"] == body["keep"]]
    if not kept:
        raise Refused("The reading to keep is not one of this spot. Say again which is right.")
    build.heads[body["spot"]] = [h for h in heads if h["id"] != body["keep"] and not knew(event, h["event"])] + kept


def _confirm(build: Build, event: dict, body: dict) -> None:
    _must_record(event)
    step = _step(build, body["step"])
    if body["item"] not in [c["id"] for c in step["confirms"]]:
        raise Refused("There is no item “" + body["item"] + "” in “" + step["title"] + "”. The tick is kept.")
    if not build.is_struck(event):
        key = body["step"] + "/" + body["item"]
        build.ticks.setdefault(key, []).append(_entry(build, event, step_targets(body["step"], "")))


def _chosen(build: Build, event: dict, body: dict) -> None:
    _must_record(event)
    choice = build.procedure.get("choices", {}).get(body["choice"])
    found = [o for o in choice["options"] if o["id"] == body["option"]] if choice else []
    if not found:
        raise Refused("This procedure does not offer “" + body["option"] + "” for “" + body["choice"] + "”. The choice is kept and not used.")
    if not build.is_struck(event):
        build.choices[body["choice"]] = {"option": body["option"], "title": found[0]["title"], "values": found[0]["values"],
                                         "event": event, "id": event_id(event)}


def _filed(build: Build, event: dict, body: dict) -> None:
    """A ring was filed: its gap must be read again, and the turns belong to the next reading."""
    _must_record(event)
    point = build.procedure["points"].get(body["point"])
    if point is None or body["station"] not in build.stations(point["group"]):
        raise Refused("This procedure has no ring gap at “" + spot_of(body["point"], body["station"]) + "”. The entry is kept.")
    turns = read(body["turns"], {"num": 1000, "den": 1})["value"]
    if not build.is_struck(event):
        spot = spot_of(body["point"], body["station"])
        build.filed.setdefault(spot, []).append({"turns": turns, "event": event, "id": event_id(event), "order": build.applied})
        _disturb(build, event, [spot])


def _pulled(build: Build, event: dict, body: dict) -> None:
    _must_record(event)
    step = _step(build, body["step"])
    found = [f for f in (step["torque"] or {"fasteners": []})["fasteners"] if f["id"] == body["fastener"]]
    if not found or not 1 <= body["pass"] <= len(step["torque"]["passes"]):
        raise Refused("“" + step["title"] + "” has no such fastener or pass. The mark is kept.")
    if not build.is_struck(event):
        key = body["step"] + "/" + str(body["pass"]) + "/" + body["fastener"]
        build.pulls.setdefault(key, []).append(_entry(build, event, step_targets(body["step"], found[0]["station"])))


def _part_added(build: Build, event: dict, body: dict) -> None:
    if build.is_struck(event):
        return
    kind = build.procedure["parts"].get(body["kind"])
    if kind is None:
        raise Refused("This procedure has no place for a part of kind “" + body["kind"] + "”. The entry is kept.")
    if body["part"] in build.parts:
        raise Refused("A part named “" + body["part"] + "” is on the bench already. Give this one another name.")
    size = None
    if body["size"] is not None:
        size = quantity_of(body["size"]["text"], body["size"]["unit"], kind["dimension"], build.procedure["units"])["value"]
    about = about_part(body)
    build.notes[body["part"]] = about
    build.parts[body["part"]] = {"id": body["part"], "kind": body["kind"], "title": body["title"], "size": size, "event": event,
                                 "read": False, "about": about}


def _part_noted(build: Build, event: dict, body: dict) -> None:
    _must_record(event)
    if build.is_struck(event):
        return
    part = part_of(build, body["part"])
    build.notes[part["id"]] = about_part(body)
    if part["id"] in build.parts:
        build.parts[part["id"]]["about"] = build.notes[part["id"]]


def _part_measured(build: Build, event: dict, body: dict) -> None:
    _must_record(event)
    if build.is_struck(event):
        return
    part = part_of(build, body["part"])
    kind = build.procedure["parts"][part["kind"]]
    number = quantity_of(body["text"], body["unit"], kind["dimension"], build.procedure["units"])
    part.update({"size": number["value"], "event": event, "read": True})
    build.parts[part["id"]] = part


def part_of(build: Build, name: str) -> dict:
    """A part by id, including those that came with a slot. Refused when there is no such part."""
    if name in build.parts:
        return build.parts[name]
    slot_name, _, station = name.partition("@")
    slot = build.procedure["slots"].get(slot_name)
    if slot is None or station not in build.stations(slot["group"]):
        raise Refused("There is no part “" + name + "” on this bench.")
    title = slot["title"] + " that came at " + station if station else slot["title"]
    return {"id": name, "kind": slot["part"], "title": title, "size": None, "event": None, "read": False,
            "about": build.notes.get(name) or about_part({})}


def _put(build: Build, event: dict, body: dict) -> None:
    _must_record(event)
    if build.is_struck(event):
        return
    for put in body["puts"]:
        _check_put(build, put)
    for put in body["puts"]:
        spot = spot_of(put["slot"], put["station"])
        if build.slot_parts(put["slot"], put["station"]) == put["parts"]:
            continue
        build.held[spot] = list(put["parts"])
        _disturb(build, event, slot_targets(build.procedure, put["slot"], put["station"]))


def _check_put(build: Build, put: dict) -> None:
    slot = build.procedure["slots"].get(put["slot"])
    if slot is None or put["station"] not in build.stations(slot["group"]):
        raise Refused("There is no slot “" + spot_of(put["slot"], put["station"]) + "” in this engine. The entry is kept.")
    if slot["holds"] == "one" and len(put["parts"]) > 1:
        raise Refused("“" + slot["title"] + "” holds one part. The entry is kept and changes nothing.")
    for name in put["parts"]:
        if part_of(build, name)["kind"] != slot["part"]:
            raise Refused("“" + name + "” does not belong in “" + slot["title"] + "”. The entry is kept and changes nothing.")


def _undone(build: Build, event: dict, body: dict) -> None:
    _must_record(event)
    step = _step(build, body["step"])
    if not build.is_struck(event):
        targets = step_targets(step["id"], "") + step["reads"]
        for name in step["disturbs"]["points"]:
            targets.append(name)
        for name in step["disturbs"]["steps"]:
            targets = targets + step_targets(name, "") + build.steps[name]["reads"]
        _disturb(build, event, targets)


def _disturb(build: Build, event: dict, targets: list[str]) -> None:
    """Make stale whatever was recorded before at any of the targets."""
    build.disturbances.note(event, targets)
    hit = {name: True for name in targets}
    for spot in build.heads:
        if spot in hit or spot.partition("@")[0] in hit:
            _make_stale(build.heads[spot], event)
    for key in build.ticks:
        if "step:" + key.partition("/")[0] in hit:
            _make_stale(build.ticks[key], event)
    for key in build.pulls:
        if _pull_is_hit(build, key, hit):
            _make_stale(build.pulls[key], event)


def _pull_is_hit(build: Build, key: str, hit: dict) -> bool:
    step = key.partition("/")[0]
    if "step:" + step in hit:
        return True
    fastener = key.split("/")[2]
    for f in build.steps[step]["torque"]["fasteners"]:
        if f["id"] == fastener:
            return "step:" + step + "@" + f["station"] in hit
    return False


def _make_stale(entries: list[dict], event: dict) -> None:
    for entry in entries:
        if entry["stale"] is None:
            entry["stale"] = event


def _limit_set(build: Build, event: dict, body: dict) -> None:
    if build.is_struck(event):
        return
    if event.get("role", "") not in ("owner", "builder", ""):
        raise Refused("Limits are set by the owner or a builder. This one is kept and not used.")
    dimension = limit_dimension(build.procedure, body["limit"])
    if not dimension or body["authority"] not in ("maker", "shop"):
        raise Refused("There is no limit “" + body["limit"] + "” to set here. The entry is kept.")
    row = {"authority": body["authority"], "source": body["source"], "dated": event["at"]}
    for end in ("low", "high", "aim"):
        text = body[end]
        row[end] = None if text is None else quantity_of(text, body["unit"], dimension, build.procedure["units"])["value"]
    if row["low"] is not None and row["high"] is not None and row["low"] > row["high"]:
        raise Refused("The lower limit is above the upper one. Set the limit again.")
    build.limits.setdefault(body["limit"], {})[body["authority"]] = row


def limit_dimension(procedure: dict, limit: str) -> str:
    """What a limit measures, from the fits that use it; empty when none does."""
    for name in procedure["fits"]:
        if procedure["fits"][name]["limit"] == limit:
            return procedure["fits"][name]["dimension"]
    return ""


def _concession(build: Build, event: dict, body: dict) -> None:
    fit = build.procedure["fits"].get(body["fit"])
    if fit is None or body["station"] not in build.stations(fit["group"]):
        raise Refused("There is no fit “" + spot_of(body["fit"], body["station"]) + "” here. The concession is kept and opens nothing.")
    if not body["reason"].strip() or not body["granted_by"].strip():
        raise Refused("A concession needs a reason and the name of who grants it. This one is kept and opens nothing.")
    counts = event.get("role", "") in ("owner", "builder", "")
    build.concessions.append({"event": event, "id": event_id(event), "fit": body["fit"], "station": body["station"],
                              "value": body["value"], "reason": body["reason"], "granted_by": body["granted_by"],
                              "reviewed": None, "counts": counts and not build.is_struck(event)})


def _countersigned(build: Build, event: dict, body: dict) -> None:
    for concession in build.concessions:
        if concession["id"] == body["event"] and not build.is_struck(event):
            if concession["event"].get("who") == event.get("who"):
                raise Refused("Nobody reviews his own concession. Ask another person.")
            if event.get("role", "") not in ("owner", "builder", "crew_chief", ""):
                raise Refused("An apprentice does not review concessions. This one is kept and not counted.")
            concession["reviewed"] = event
            concession["counts"] = not build.is_struck(concession["event"])


def _strike(build: Build, event: dict, body: dict) -> None:
    if body["event"] not in build.events:
        raise Refused("The entry to strike through is not in this build.")
    if body["event"] not in build.struck:
        raise Refused("Only its author or the owner strikes an entry through. It stands.")


_APPLY = {
    "build.opened": _opened, "reading": _reading, "contrary.settled": _settled, "confirm": _confirm,
    "torque.pulled": _pulled, "part.added": _part_added, "part.measured": _part_measured, "part.noted": _part_noted,
    "choice.made": _chosen, "ring.filed": _filed,
    "parts.put": _put,
    "step.undone": _undone, "limit.set": _limit_set, "concession": _concession,
    "concession.countersigned": _countersigned, "strike": _strike,
}
