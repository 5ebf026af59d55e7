"""What became of one thing that a phone sent."""
from dataclasses import dataclass


@dataclass(frozen=True)
class Verdict:
    n: int | None
    verdict: str
    seq: int | None = None
    why: str = ""
