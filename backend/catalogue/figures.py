"""From quantities in text to figures on the grid: bands, limits, torque passes.

Law: what a procedure calls absurd, allowed or asked for is in order (low before aim before high) and in the right kind.
"""
from __future__ import annotations

from .errors import Problems
from .yaml_lines import Lined, LinedList

TABLE, SHOP = "table", "shop"


def set_bands(table: Lined, problems: Problems) -> None:
    """Bands of points or parts become two integers; `dimension` is what the band is written in."""
    for name, row in table.items():
        band, line = row["band"], row.lines.get("band", row.line)
        row["dimension"] = band[0].dimension if band else ""
        if len(band) != 2:
            problems.add(line, f"The band of '{name}' must be two quantities, [low, high].")
        elif band[0].dimension != band[1].dimension:
            problems.add(line, f"The band of '{name}' mixes {band[0].dimension} and {band[1].dimension}.")
        elif band[0].value >= band[1].value:
            problems.add(line, f"The band of '{name}' is upside down: {band[0].text} is not less than {band[1].text}.")
        row["band"] = [q.value for q in band]


def limits_of(proc: Lined, problems: Problems) -> Lined:
    """Table rows and shop rows in one list a limit, each with its authority; figures on the grid, `dimension` kept aside."""
    out = Lined()
    out.lines = {}
    for part, authority in (("shop", SHOP), ("limits", TABLE)):
        for name, rows in proc[part].items():
            out.setdefault(name, [])
            out.lines.setdefault(name, proc[part].lines[name])
            out[name].extend(_limit_row(name, row, authority, problems) for row in rows)
            _once_a_duty(name, rows, problems)
    return out


def _limit_row(name: str, row: Lined, authority: str, problems: Problems) -> Lined:
    given = [row[end] for end in ("low", "aim", "high") if row[end]]
    if not row["low"] and not row["high"]:
        problems.add(row.line, f"A row of the limit '{name}' has neither 'low' nor 'high'.")
    if len({q.dimension for q in given}) > 1:
        problems.add(row.line, f"A row of the limit '{name}' mixes {' and '.join(sorted({q.dimension for q in given}))}.")
    elif any(a.value > b.value for a, b in zip(given, given[1:], strict=False)):
        problems.add(row.line, f"A row of the limit '{name}' is out of order: {', '.join(q.text for q in given)}.")
    out = Lined(row, authority=authority, dimension=given[0].dimension if given else "")
    out.line, out.lines = row.line, row.lines
    for end in ("low", "high", "aim"):
        out[end] = row[end].value if row[end] else None
    return out


def _once_a_duty(name: str, rows: LinedList, problems: Problems) -> None:
    seen: set[str] = set()
    for row in rows:
        if row["duty"] in seen:
            problems.add(row.line, f"The limit '{name}' has two rows for the duty '{row['duty']}'.")
        seen.add(row["duty"])


def every_duty(limits: Lined, problems: Problems) -> None:
    """A build has one duty: each limit must have a row for every duty that any limit has."""
    duties = sorted({row["duty"] for rows in limits.values() for row in rows})
    for name, rows in limits.items():
        for duty in duties:
            if duty not in [row["duty"] for row in rows]:
                problems.add(limits.lines[name], f"The limit '{name}' has no row for the duty '{duty}', which others have.")


def set_passes(steps: LinedList, problems: Problems) -> None:
    """Torque passes become integers, rising."""
    for step in steps:
        torque = step["torque"]
        if not torque:
            continue
        line, passes = torque.lines.get("passes", torque.line), torque["passes"]
        for q in passes:
            if q.dimension != "torque":
                problems.add(line, f"A pass of '{step['id']}' is {q.text}, which is a {q.dimension}, not a torque.")
        torque["passes"] = [q.value for q in passes]
        if not passes or any(q.value <= 0 for q in passes):
            problems.add(line, f"The torque of '{step['id']}' needs at least one pass above zero.")
        if any(a.value >= b.value for a, b in zip(passes, passes[1:], strict=False)):
            problems.add(line, f"The passes of '{step['id']}' must rise.")
