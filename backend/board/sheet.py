"""The build sheet: what was built, every reading including those struck through, and on whose word anything was let past."""
from record import procedures
from record.models import Build, Event
from shop.models import Person
from shop.selectors import people

from .status import ms, said_of

UNREVIEWED = "not independently reviewed"


def sheet(build: Build, person: Person) -> dict:
    said = said_of(build)
    overview = said["overview"] or {}
    return {
        "build": _identity(build),
        "shop": {"id": person.shop.slug, "name": person.shop.name},
        "people": people(person.shop),
        "phases": overview.get("phases", []),
        "parts": _bodies(build, "part.added"),
        "readings": _readings(build),
        "fits": said["fits"],
        "limits": _limits(build),
        "holds": said["holds"],
        "again": overview.get("again", []),
        "concessions": [c | {"review": c.get("reviewed_by") or UNREVIEWED} for c in overview.get("concessions", [])],
        "findings": said["findings"],
        "head": build.head,
        "head_hash": build.head_hash,
        "reviewed": build.status.seq if hasattr(build, "status") else 0,
        "last_event": ms(build.last_event),
    }


def _identity(build: Build) -> dict:
    compiled = procedures.procedure(build.procedure, build.revision) or {}
    return {
        "id": build.key, "name": build.name, "duty": build.duty, "procedure": build.procedure,
        "revision": build.revision, "title": compiled.get("title", ""), "digest": compiled.get("digest", ""),
    }


def _readings(build: Build) -> list[dict]:
    """Every attempt in the order of the record, with the title of its point."""
    points = (procedures.procedure(build.procedure, build.revision) or {}).get("points", {})
    names = ("event", "spot", "point", "station", "value", "text", "unit", "who", "at", "counts", "struck", "seq")
    return [{name: getattr(r, name) for name in names} | {"title": points.get(r.point, {}).get("title", r.point)}
            for r in build.readings.order_by("seq", "pk")]


def _limits(build: Build) -> dict:
    """The procedure's rows for this duty, on the number grid, and those set for this build, as typed."""
    compiled = procedures.procedure(build.procedure, build.revision) or {}
    rows = {name: [r for r in rows if r["duty"] in ("", build.duty)] for name, rows in compiled.get("limits", {}).items()}
    return {"procedure": {name: kept for name, kept in rows.items() if kept}, "build": _bodies(build, "limit.set")}


def _bodies(build: Build, type: str) -> list[dict]:
    rows = Event.objects.filter(build=build, type=type).order_by("seq")
    return [{"event": row.id_text, "who": row.who, "at": row.at} | row.wire()["body"] for row in rows]
