"""What is known of a part besides its size: its mark, where it comes from, what it cost, where it has run.

Law: everything here is optional; a field that was not given is empty.
"""
from __future__ import annotations

from .quantity import read

STATES = ("new", "used", "reworked")
MINOR = {"num": 100, "den": 1}   # money is counted in hundredths


def about_part(body: dict) -> dict:
    """`{mark, state, cost: {value, unit} | None, condition, belongs: {slot, station} | None}`; BadNumber for a bad cost."""
    cost = body.get("cost")
    state = body.get("state")
    return {"mark": _text(body, "mark"), "state": state if state in STATES else "", "condition": _text(body, "condition"),
            "cost": {"value": read(cost["text"], MINOR)["value"], "unit": cost["unit"]} if cost else None,
            "belongs": body.get("belongs")}


def _text(body: dict, name: str) -> str:
    value = body.get(name)
    return value if isinstance(value, str) else ""
