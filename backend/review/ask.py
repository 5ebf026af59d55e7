"""What the kernel says of a build, with what only the server knows: procedures it lacks and events put aside."""
import logging

from kernel import door
from record import procedures
from record.models import Build, Event
from shop.selectors import names

log = logging.getLogger(__name__)

UNITS = {"length": "thou", "torque": "lbf.ft"}
EMPTY: dict = {"overview": None, "findings": [], "fits": [], "holds": [], "readings": []}


def ask(build: Build) -> dict:
    """The kernel's status of the build up to its head; EMPTY with a finding that says why when there is none."""
    procedure = procedures.procedure(build.procedure, build.revision)
    if procedure is None:
        return _without(build, "no_procedure", *_no_procedure(build))
    answer = _status(build, procedure)
    if "error" in answer:
        return _without(build, "not_checked", answer["error"], "The check could not read this build.")
    return EMPTY | answer | {"findings": answer["findings"] + _aside(build)}


def _status(build: Build, procedure: dict) -> dict:
    events = [row.wire() for row in Event.objects.filter(build=build, seq__lte=build.head).order_by("seq")]
    try:
        return door.answer({
            "op": "status", "procedure": procedure, "events": events, "people": names(build.shop), "units": UNITS,
            # The time of the last event, not of the job: a review run again says the same.
            "now": int(build.last_event.timestamp() * 1000) if build.last_event else 0,
        })
    except Exception:
        # An event the kernel cannot digest must not leave the board silent about the build.
        log.exception("review: the kernel failed on build %s", build.key)
        return {"error": "The check of this build failed on the server. The record is whole; update the server."}


def _no_procedure(build: Build) -> tuple[str, str]:
    says = f"This server has no procedure {build.procedure or '(unnamed)'}, revision {build.revision}."
    return says, "Without it nothing of this build is checked here."


def _without(build: Build, check: str, says: str, why: str) -> dict:
    return EMPTY | {"findings": [_finding(check, says, why, "Update the server, or ask the owner.")] + _aside(build)}


def _aside(build: Build) -> list[dict]:
    """Forks: two different events under one number."""
    rows = build.quarantined.order_by("pk")
    return [_finding("fork", f"Event {row.event} came twice with different contents.", row.why,
                     "Read the spot concerned once more on the phone.") for row in rows]


def _finding(check: str, says: str, why: str, cure: str) -> dict:
    return {"check": check, "level": "look", "step": "", "fit": "", "station": "", "says": says, "why": why, "cure": cure}
