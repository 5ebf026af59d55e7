"""What a build is set to: its opening, its choices, its own limits."""
from __future__ import annotations

from ..events import event_id, quantity_of
from ..sentence import Refused
from .common import must_record


def opened(build, event: dict, body: dict) -> None:
    if build.info["id"]:
        raise Refused("opened_before")
    build.info = {"id": event["build"], "name": body["name"], "duty": body["duty"], "note": body.get("note", "") or ""}


def chosen(build, event: dict, body: dict) -> None:
    must_record(event)
    choice = build.procedure.get("choices", {}).get(body["choice"])
    found = [o for o in choice["options"] if o["id"] == body["option"]] if choice else []
    if not found:
        raise Refused("not_offered", option=body["option"], choice=body["choice"])
    if not build.is_struck(event):
        build.choices[body["choice"]] = {"option": body["option"], "title": found[0]["title"], "values": found[0]["values"],
                                         "event": event, "id": event_id(event)}


def limit_set(build, event: dict, body: dict) -> None:
    if build.is_struck(event):
        return
    if event.get("role", "") not in ("owner", "builder", ""):
        raise Refused("not_a_limit_setter")
    dimension = limit_dimension(build.procedure, body["limit"])
    if not dimension or body["authority"] not in ("maker", "shop"):
        raise Refused("no_such_limit", limit=body["limit"])
    row = {"authority": body["authority"], "source": body["source"], "dated": event["at"]}
    for end in ("low", "high", "aim"):
        text = body[end]
        row[end] = None if text is None else quantity_of(text, body["unit"], dimension, build.procedure["units"])["value"]
    if row["low"] is not None and row["high"] is not None and row["low"] > row["high"]:
        raise Refused("limits_crossed")
    build.limits.setdefault(body["limit"], {})[body["authority"]] = row


def limit_dimension(procedure: dict, limit: str) -> str:
    """What a limit measures, from the fits that use it; empty when none does."""
    for name in procedure["fits"]:
        if procedure["fits"][name]["limit"] == limit:
            return procedure["fits"][name]["dimension"]
    return ""
