"""What became of one thing that a phone sent."""
from typing import NamedTuple

from .rows import Row


class Verdict(NamedTuple):
    n: int | None
    verdict: str
    seq: int | None = None
    why: str = ""
    row: Row | None = None  # what was stored just now
