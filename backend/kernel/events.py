"""What an event must look like, and which of two knew the other.

Law: a misfit is named, never raised: the event stays in the record and changes nothing else.
"""
from __future__ import annotations

from .quantity import read
from .sentence import BadNumber
from .sorting import merge_sort

TEXT, COUNT, LIST, FLAG, MAYBE_TEXT, MAYBE_COUNT = "text", "count", "list", "flag", "text?", "count?"
MAYBE_SIZE, MAYBE_SPOT = "size?", "spot?"

SHAPES: dict[str, dict[str, str]] = {
    "build.opened": {"name": TEXT, "procedure": TEXT, "revision": COUNT, "duty": TEXT},
    "reading": {"point": TEXT, "station": TEXT, "text": TEXT, "unit": TEXT},
    "contrary.settled": {"spot": TEXT, "keep": TEXT, "why": TEXT},
    "confirm": {"step": TEXT, "item": TEXT},
    "choice.made": {"choice": TEXT, "option": TEXT},
    "ring.filed": {"point": TEXT, "station": TEXT, "turns": TEXT},
    "torque.pulled": {"step": TEXT, "pass": COUNT, "fastener": TEXT},
    "part.added": {"part": TEXT, "kind": TEXT, "title": TEXT, "size": MAYBE_SIZE},
    "part.measured": {"part": TEXT, "text": TEXT, "unit": TEXT},
    "part.noted": {"part": TEXT, "mark": TEXT, "state": TEXT, "cost": MAYBE_SIZE, "condition": TEXT, "belongs": MAYBE_SPOT},
    "parts.put": {"puts": LIST, "why": TEXT},
    "step.undone": {"step": TEXT, "why": TEXT},
    "limit.set": {"limit": TEXT, "authority": TEXT, "low": MAYBE_TEXT, "high": MAYBE_TEXT, "aim": MAYBE_TEXT,
                  "unit": TEXT, "source": TEXT},
    "concession": {"fit": TEXT, "station": TEXT, "value": MAYBE_COUNT, "reason": TEXT, "granted_by": TEXT},
    "concession.countersigned": {"event": TEXT, "note": TEXT},
    "strike": {"event": TEXT, "why": TEXT},
}


def event_id(event: dict) -> str:
    return event["dev"] + ":" + str(event["n"])


def spot_of(name: str, station: str) -> str:
    """Where something is read or held: `main_bore@3`, or the bare name where there are no stations."""
    return name + "@" + station if station else name


def in_order(events: list[dict]) -> list[dict]:
    """Fold order: acknowledged events by `seq`, then pending ones by `n`."""
    return merge_sort(events, order_key)


def order_key(event: dict) -> tuple:
    seq = event.get("seq")
    return (1, event["n"], event["dev"]) if seq is None else (0, seq, event["dev"])


def knew(event: dict, other: dict) -> bool:
    """Whether the phone that wrote `event` already had `other`."""
    if event["dev"] == other["dev"]:
        return event["n"] > other["n"]
    seq = other.get("seq")
    return seq is not None and event["seen"] >= seq


def shape_problem(event: dict) -> tuple[str, dict] | None:
    """What is wrong with the body, as the key of a sentence and its parts; None for nothing and for unknown types."""
    shape = SHAPES.get(event["type"])
    body = event.get("body")
    if shape is None:
        return None
    if not isinstance(body, dict):
        return ("not_an_object", {})
    for field in merge_sort(list(shape.keys()), lambda k: k):
        if field not in body or not _fits(body[field], shape[field]):
            return ("field_misshapen", {"field": field})
    return _puts_problem(body["puts"]) if event["type"] == "parts.put" else None


def _fits(value: object, kind: str) -> bool:
    if kind[-1] == "?" and value is None:
        return True
    if kind in (TEXT, MAYBE_TEXT):
        return isinstance(value, str)
    if kind in (COUNT, MAYBE_COUNT):
        return isinstance(value, int) and value is not True and value is not False
    if kind == LIST:
        return isinstance(value, list)
    fields = ("slot", "station") if kind == MAYBE_SPOT else ("text", "unit")
    return isinstance(value, dict) and isinstance(value.get(fields[0]), str) and isinstance(value.get(fields[1]), str)


def _puts_problem(puts: list) -> tuple[str, dict] | None:
    for put in puts:
        if not (isinstance(put, dict) and isinstance(put.get("slot"), str) and isinstance(put.get("station"), str)
                and isinstance(put.get("parts"), list)):
            return ("put_misshapen", {})
        for part in put["parts"]:
            if not isinstance(part, str):
                return ("put_unnamed", {})
    return None


def quantity_of(text: str, unit: str, dimension: str, table: dict) -> dict:
    """`{"value", "step"}` of a typed quantity; BadNumber when the unit is unknown or measures something else."""
    found = table.get(unit)
    if found is None or found["dimension"] != dimension:
        raise BadNumber("wrong_unit", unit=unit[:20], dimension=dimension)
    return read(text, found)
