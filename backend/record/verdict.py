"""What became of one thing that a phone sent."""
from typing import NamedTuple


class Verdict(NamedTuple):
    n: int | None
    verdict: str
    seq: int | None = None
    why: str = ""
