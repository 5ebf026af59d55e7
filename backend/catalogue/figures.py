"""From quantities in text to figures on the grid: bands and torque passes.

Law: what a procedure calls absurd or asks for is in order and of the right kind.
"""
from __future__ import annotations

from .errors import Problems
from .unit_table import BY_ID, a
from .yaml_lines import Lined, LinedList


def set_bands(table: Lined, problems: Problems) -> None:
    """Bands of points or parts become two integers; `dimension` is what the band is written in."""
    for name, row in table.items():
        band, line = row["band"], row.lines.get("band", row.line)
        row["dimension"] = band[0].dimension if band else ""
        row["unit"] = band[0].unit if band and BY_ID[band[0].unit].offered else ""
        if len(band) != 2:
            problems.add(line, f"The band of '{name}' must be two quantities, [low, high].")
        elif band[0].dimension != band[1].dimension:
            problems.add(line, f"The band of '{name}' mixes {band[0].dimension} and {band[1].dimension}.")
        elif band[0].value >= band[1].value:
            problems.add(line, f"The band of '{name}' is upside down: {band[0].text} is not less than {band[1].text}.")
        row["band"] = [q.value for q in band]


def set_passes(steps: LinedList, problems: Problems) -> None:
    """Passes become integers and say what each is: torques, rising, and after them angles."""
    for step in steps:
        torque = step["torque"]
        if not torque:
            continue
        line, passes = torque.lines.get("passes", torque.line), torque["passes"]
        for q in passes:
            if q.dimension not in ("torque", "angle"):
                problems.add(line, f"A pass of '{step['id']}' is {q.text}, which is {a(q.dimension)}, not a torque or an angle.")
        torque["passes"] = [q.value for q in passes]
        torque["pass_kinds"] = kinds = [q.dimension for q in passes]
        if not passes or any(q.value <= 0 for q in passes):
            problems.add(line, f"The torque of '{step['id']}' needs at least one pass above zero.")
        if kinds != sorted(kinds, key="torque angle".find):
            problems.add(line, f"A pass of '{step['id']}' by angle stands before one by torque: angles come last.")
        rising = [q.value for q in passes if q.dimension == "torque"]
        if any(a >= b for a, b in zip(rising, rising[1:], strict=False)):
            problems.add(line, f"The passes of '{step['id']}' must rise.")
