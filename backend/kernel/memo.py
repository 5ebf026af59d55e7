"""What has been worked out and still holds.

Law: forgetting too much costs time, forgetting too little costs truth: an event that is not known to touch little clears all.
A reading touches the fits that rest on its point, the limits that grow with them, and the steps that read or are held by them.
"""
from __future__ import annotations

_OWNERS = {"figure": "fit:", "fit": "fit:", "seen": "fit:", "limit": "limit:", "work": "step:", "closed": "step:"}
REST = "rest"


class Memo:
    """Answers kept by who they belong to; `touched_by` says whose go with an event."""

    def __init__(self, procedure: dict):
        self.procedure = procedure
        self.kept: dict[str, dict] = {}
        self.reach: dict[str, list[str]] = {}

    def once(self, key: tuple | str, work_out):
        owner = _owner(key)
        own = self.kept.setdefault(owner, {})
        if key not in own:
            own[key] = work_out()
        return own[key]

    def forget(self, event: dict) -> None:
        """Drop what this event may have changed."""
        kind, body = event["type"], event["body"]
        if kind == "reading" and isinstance(body, dict):
            owners = self._of_point(body.get("point"))
        elif kind in ("confirm", "torque.pulled") and isinstance(body, dict):
            owners = ["step:" + str(body.get("step"))]
        else:
            self.kept = {}
            return
        for owner in owners + [REST]:
            self.kept.pop(owner, None)

    def _of_point(self, point) -> list[str]:
        if not isinstance(point, str):
            return []
        if point not in self.reach:
            self.reach[point] = reach_of(self.procedure, point)
        return self.reach[point]


def _owner(key: tuple | str) -> str:
    if isinstance(key, str) or key[0] not in _OWNERS:
        return REST
    return _OWNERS[key[0]] + key[1]


def reach_of(procedure: dict, point: str) -> list[str]:
    """Whose answers a reading of this point may change."""
    fits = procedure["fits"]
    hit = [name for name in fits if point in fits[name]["points"]]
    grown = [name for name in procedure["limits"] if _grows_with(procedure["limits"][name], point, hit)]
    hit = hit + [name for name in fits if fits[name]["limit"] in grown and name not in hit]
    steps = ["step:" + step["id"] for step in procedure["steps"]
             if point in step["reads"] or [name for name in step["gates"] if name in hit]]
    return ["fit:" + name for name in hit] + ["limit:" + name for name in grown] + steps


def _grows_with(rows: list[dict], point: str, hit: list[str]) -> bool:
    for row in rows:
        per = row.get("per")
        if per and (per["name"] == point if per["kind"] == "point" else per["name"] in hit):
            return True
    return False
