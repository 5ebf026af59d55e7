"""Laws that must hold once everything has healed: nothing lost, nothing twice, nothing divergent, every chain whole."""

from __future__ import annotations

import json

from kernel import door
from kernel.canon import canon
from record import procedures
from record.models import BuildStatus, Quarantine
from record.shape import EVENT_BYTES
from shop.selectors import people

from .world import World, said_part

SHARED = ("dev", "n", "build", "type", "v", "at", "seen", "who", "role", "body", "seq")


def judge(w: World) -> list[str]:
    return lost(w) + twice_or_gaps(w) + divergent(w) + projections(w)


def lost(w: World) -> list[str]:
    """Everything a person was shown as kept is in a build, or put aside with its reason where it cannot be in one."""
    builds = w.server.builds()
    stored = {bytes(e.raw) for b in builds.values() for e in w.server.events(b)}
    aside = {q.event: q.kind for q in Quarantine.objects.filter(shop=w.server.shop)}
    out = []
    for raw in w.ticked:
        if raw in stored or raw in w.gone:
            continue
        event = json.loads(raw)
        kind = aside.get(f"{event['dev']}:{event['n']}")
        if kind in ("malformed", "too_big", "fork") and raw in w.server.bodies() | _held(w):
            continue
        if kind is None and len(raw) > EVENT_BYTES and raw in _held(w):
            continue  # nobody on the way would take it; it stays on the phone, marked
        out.append(f"{event['dev'][:6]}:{event['n']} {event['type']} of {event['build']} was shown as kept and is in no build (put aside: {kind})")
    return out


def _held(w: World) -> set[bytes]:
    return {said_part(row) for n in w.phones for row in w.tell("dump", phone=n)["events"]}


def twice_or_gaps(w: World) -> list[str]:
    out, seen = [], set()
    for key, build in w.server.builds().items():
        events = w.server.events(build)
        if [e.seq for e in events] != list(range(1, build.head + 1)):
            out.append(f"{key}: positions are {[e.seq for e in events]} with head {build.head}")
        for event in events:
            if bytes(event.raw) in seen:
                out.append(f"{key}: {event.id_text} is stored twice")
            seen.add(bytes(event.raw))
    return out


def divergent(w: World) -> list[str]:
    """Every phone that may see a build holds what the server holds, and the kernel makes the same of it."""
    out = []
    builds = w.server.builds()
    told = {key: canon([{name: e[name] for name in SHARED} for e in (row.wire() for row in w.server.events(b))]) for key, b in builds.items()}
    for number in w.phones:
        for key in visible(w, number):
            tab = w.tell("tabs", phone=number)[0]
            events = w.tell("folds", phone=number, tab=tab, build=key)["value"]
            mine = canon([{name: e.get(name) for name in SHARED} for e in events])
            if mine != told[key]:
                out.append(f"phone {number} differs in {key}: {_difference(json.loads(mine), json.loads(told[key]))}")
            elif digest(w, builds[key], events) != digest(w, builds[key], json.loads(told[key])):
                out.append(f"phone {number}: the fold of {key} differs")
    return out


def visible(w: World, number: int) -> list[str]:
    """What the person at this bench may see; a phone asks for news in that person's name."""
    who = next((row["id"] for row in w.phones[number]["rows"] if row["token"] is not None), None)
    builds = w.server.builds().values()
    return sorted(b.key for b in builds if who == "ines" or b.people.filter(slug=who).exists())


def digest(w: World, build, events: list[dict]) -> str:
    names = {slug: p["name"] for slug, p in people(w.server.shop).items()}
    asked = {"op": "status", "procedure": procedures.procedure(build.procedure, build.revision), "events": events, "people": names,
             "units": {"length": "thou", "torque": "lbf.ft"}, "now": 0}  # fmt: skip
    return canon(door.answer(asked))


def projections(w: World) -> list[str]:
    """Jobs that were lost, killed, late or twice have left what one run at the end leaves."""
    out = []
    for key, build in w.server.builds().items():
        status = BuildStatus.objects.filter(build=build).first()
        if build.dirty or build.claimed or status is None or (status.seq, status.head_hash) != (build.head, build.head_hash):
            out.append(f"{key}: its review stands at {status and status.seq} of {build.head}, dirty {build.dirty}, claimed {build.claimed}")
    return out


def _difference(mine: list[dict], theirs: list[dict]) -> str:
    for i in range(max(len(mine), len(theirs))):
        one, other = (rows[i] if i < len(rows) else None for rows in (mine, theirs))
        if one != other:
            return f"at {i}: {_short(one)} on the phone, {_short(other)} on the server"
    return "nothing"


def _short(event: dict | None) -> str:
    return "nothing" if event is None else f"{event['dev'][:6]}:{event['n']} seq {event['seq']} by {event['who']}/{event['role']} {event['type']}"
