"""One function for each type of event: it takes a build, the event and its body, and changes the build.

Law: an event that cannot be applied raises a Sentence before anything is changed.
"""
from __future__ import annotations

from . import concessions, parts, readings, setting, work

APPLY = {
    "build.opened": setting.opened, "choice.made": setting.chosen, "limit.set": setting.limit_set,
    "reading": readings.reading, "contrary.settled": readings.settled, "ring.filed": readings.filed,
    "confirm": work.confirm, "torque.pulled": work.pulled, "step.undone": work.undone,
    "part.added": parts.part_added, "part.noted": parts.part_noted, "part.measured": parts.part_measured, "parts.put": parts.put,
    "concession": concessions.concession, "concession.countersigned": concessions.countersigned, "strike": concessions.strike,
}
# The newest shape of each type's body that is known here. A newer one is kept and shown as "update needed"; when a shape
# changes, its applier takes the older ones too.
VERSIONS = {name: 1 for name in APPLY}
