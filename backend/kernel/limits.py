"""Which limit counts.

Law: the part maker's sheet beats the shop's own spec, which beats the reference table; the verdict always says which.
A row may depend on what was chosen (`when`) and may grow with a measured size (`per`): it counts once those are there.
"""
from __future__ import annotations

from .formula import READ
from .rational import rounded

AUTHORITY = ("maker", "shop", "table")
PARTS = 1_000_000   # a `per` figure counts millionths of the size


def limit_of(build, name: str, station: str = "") -> dict | None:
    """`{authority, low, high, aim, source, dated}` at a station, ends in base units; None where nothing sets it yet."""
    if not name:
        return None
    return build.once(("limit", name, station), lambda: _limit_of(build, name, station))


def _limit_of(build, name: str, station: str) -> dict | None:
    own = build.limits.get(name, {})
    for authority in AUTHORITY:
        if authority in own:
            return own[authority]
        row = _row(build, name, authority)
        if row is not None:
            return _expanded(build, row, station)
    return None


def _row(build, name: str, authority: str) -> dict | None:
    """The first row, in the order of the file, for this duty and for what was chosen."""
    for duty in (build.info["duty"], ""):
        for row in build.procedure["limits"].get(name, []):
            if row["authority"] == authority and row["duty"] == duty and _chosen(build, row):
                return row
    return None


def _chosen(build, row: dict) -> bool:
    when = row.get("when") or {}
    for choice in when:
        if choice not in build.choices or build.choices[choice]["option"] != when[choice]:
            return False
    return True


def _expanded(build, row: dict, station: str) -> dict | None:
    """A row by size, with its ends worked out from the size at this station; None while that is not read."""
    per, more = row.get("per"), row.get("plus") or 0
    if not per and not more:
        return row
    size = build.figure_of(per["kind"], per["name"], station) if per else None
    if size is not None and size["state"] != READ:
        return None
    out = {"authority": row["authority"], "source": row["source"], "dated": row["dated"]}
    for end in ("low", "high", "aim"):
        value = row[end]
        if value is not None and size is not None:
            value = rounded((value * size["value"], PARTS))
        out[end] = None if value is None else value + more
    return out


def is_set(build, name: str) -> bool:
    """Whether anything sets this limit for some choice and size, so that a fit must wait for it."""
    if not name:
        return False
    rows = [row for row in build.procedure["limits"].get(name, []) if row["duty"] in (build.info["duty"], "")]
    return bool(rows) or bool(build.limits.get(name))


def waits_for(build, name: str) -> list[dict]:
    """What a limit waits for: `{"kind": "choice" | "point" | "fit", "name"}` of all its rows, each once."""
    out: list[dict] = []
    for row in build.procedure["limits"].get(name, []):
        wanted = [{"kind": "choice", "name": choice} for choice in row.get("when") or {} if choice not in build.choices]
        wanted = wanted + ([{"kind": row["per"]["kind"], "name": row["per"]["name"]}] if row.get("per") else [])
        out = out + [one for one in wanted if one not in out]
    return out
