"""Concessions and who has looked at them; entries struck through."""
from __future__ import annotations

from ..events import event_id, spot_of
from ..sentence import Refused


def concession(build, event: dict, body: dict) -> None:
    fit = build.procedure["fits"].get(body["fit"])
    if fit is None or body["station"] not in build.stations(fit["group"]):
        raise Refused("no_fit", fit=spot_of(body["fit"], body["station"]))
    if not body["reason"].strip() or not body["granted_by"].strip():
        raise Refused("concession_unreasoned")
    counts = event.get("role", "") in ("owner", "builder", "")
    build.concessions.append({"event": event, "id": event_id(event), "fit": body["fit"], "station": body["station"],
                              "value": body["value"], "reason": body["reason"], "granted_by": body["granted_by"],
                              "reviewed": None, "counts": counts and not build.is_struck(event)})


def countersigned(build, event: dict, body: dict) -> None:
    for concession in build.concessions:
        if concession["id"] == body["event"] and not build.is_struck(event):
            if concession["event"].get("who") == event.get("who"):
                raise Refused("own_concession")
            if event.get("role", "") not in ("owner", "builder", "crew_chief", ""):
                raise Refused("not_a_reviewer")
            concession["reviewed"] = event
            concession["counts"] = not build.is_struck(concession["event"])


def strike(build, event: dict, body: dict) -> None:
    if body["event"] not in build.events:
        raise Refused("nothing_to_strike")
    if body["event"] not in build.struck:
        raise Refused("not_a_striker")
