"""Makes a failing schedule as short as it gets: steps are left out while it still fails."""

from __future__ import annotations

from collections.abc import Callable


def shortest(steps: list[dict], fails: Callable[[list[dict]], bool]) -> list[dict]:
    size = max(1, len(steps) // 2)
    while size:
        at, shorter = 0, False
        while at < len(steps):
            fewer = steps[:at] + steps[at + size :]
            if fewer and fails(fewer):
                steps, shorter = fewer, True
            else:
                at += size
        if not shorter or size > 1:
            size = size // 2 if size > 1 else (1 if shorter else 0)
    return steps
