"""Quantities on the number grid.

Law: a value is an integer count of a tiny base unit (length: nanometre, torque: micronewton-metre). Text becomes a value
by one exact multiplication, rounded half away from zero; no float takes part. Unit factors come with the procedure.
"""
from __future__ import annotations

from .sentence import BadNumber

MAX_DIGITS = 15


def read(text: str, unit: dict) -> dict:
    """`{"value", "step"}` on the grid for typed `text` in `unit` ({num, den, ...}).

    `step` is what one unit in the last typed digit is worth: the resolution of the reading. BadNumber says what is wrong.
    """
    sign, whole, part = _split(text)
    digits = int(whole + part)
    scale = 10 ** len(part)
    value = _round_div(digits * unit["num"], unit["den"] * scale)
    step = _round_div(unit["num"], unit["den"] * scale)
    return {"value": -value if sign else value, "step": step}


def _split(text: object) -> tuple[bool, str, str]:
    if not isinstance(text, str) or not text:
        raise BadNumber("no_number")
    sign = text[0] == "-"
    body = text[1:] if sign else text
    dot = body.find(".")
    whole, part = (body, "") if dot < 0 else (body[:dot], body[dot + 1:])
    if not _all_digits(whole) or (dot >= 0 and not _all_digits(part)):
        raise BadNumber("not_a_number", text=text[:20])
    if len(whole) + len(part) > MAX_DIGITS:
        raise BadNumber("too_many_digits", text=text[:20])
    return sign, whole, part


def _all_digits(text: str) -> bool:
    for c in text:
        if c < "0" or c > "9":
            return False
    return bool(text)


def _round_div(a: int, b: int) -> int:
    """a / b for a, b >= 0, half away from zero."""
    return (2 * a + b) // (2 * b)


def write(value: int, unit: dict, decimals: int) -> str:
    """`value` as text in `unit` with so many decimals, rounded half away from zero."""
    scale = 10 ** decimals
    n = _round_div(abs(value) * unit["den"] * scale, unit["num"])
    text = str(n)
    if decimals:
        text = "0" * (decimals + 1 - len(text)) + text
        text = text[: len(text) - decimals] + "." + text[len(text) - decimals:]
    return "-" + text if value < 0 and n else text
