"""Which limit counts.

Law: the part maker's sheet beats the shop's own spec, which beats the reference table; the verdict always says which.
"""
from __future__ import annotations

AUTHORITY = ("maker", "shop", "table")
_SAID = {"maker": "the maker's sheet", "shop": "the shop's sheet", "table": "the reference table"}


def limit_of(build, name: str) -> dict | None:
    """`{authority, low, high, aim, source, dated}` for this build, or None where nothing sets it."""
    own = build.limits.get(name, {})
    rows = build.procedure["limits"].get(name, [])
    for authority in AUTHORITY:
        if authority in own:
            return own[authority]
        for duty in (build.info["duty"], ""):
            for row in rows:
                if row["authority"] == authority and row["duty"] == duty:
                    return row
    return None


def where_from(limit: dict) -> str:
    """The limit's origin in words: `the shop's sheet (race sheet 4)`."""
    said = _SAID[limit["authority"]]
    return said + " (" + limit["source"] + ")" if limit["source"] else said
