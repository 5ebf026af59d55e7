"""When things happened in the demo. Law: every time is an offset before the day of loading, so that the demo is never old."""
from datetime import UTC, datetime, timedelta

SECOND = 1000
DAY = 24 * 60 * 60 * SECOND

# What each kind of entry takes at the bench, in seconds; invented.
TAKES = {"reading": 50, "confirm": 25, "torque.pulled": 12, "choice.made": 20, "part.measured": 40, "part.noted": 15,
         "part.added": 20, "parts.put": 240, "ring.filed": 180, "concession": 300, "step.undone": 120}
USUAL = 60


def today(now: datetime | None = None) -> int:
    """The midnight (UTC) before now, ms since 1970."""
    at = (now or datetime.now(UTC)).replace(hour=0, minute=0, second=0, microsecond=0)
    return int(at.timestamp() * 1000)


def moment(midnight: int, days_ago: int, clock: str) -> int:
    """`clock` (HH:MM) so many days before, ms since 1970."""
    hours, minutes = clock.split(":")
    past = timedelta(hours=int(hours), minutes=int(minutes)) - timedelta(days=days_ago)
    return midnight + int(past.total_seconds() * 1000)


def takes(kind: str, count: int) -> int:
    """How long an entry takes, ms; `count` makes no two quite alike."""
    usual = TAKES.get(kind, USUAL)
    return (usual + count * 7 % (usual // 3 + 1)) * SECOND
