"""What openings and closings say about a cam.

Law: angles are read at the checking lift with the piston's true dead centre as zero, and each is named from the dead centre
it lies at: intake opens before top and closes after bottom, exhaust opens before bottom and closes after top. Then
duration = opening + half a turn + closing; centreline = half the duration less the angle at top; lobe separation = mean of the
two centrelines; overlap = intake opening + exhaust closing.

Common practice, no published source; angles in microdegrees, halves rounded away from zero.
"""
from __future__ import annotations

from .within import divided

HALF_TURN = 180000000


def timing(intake_opens: int, intake_closes: int, exhaust_opens: int, exhaust_closes: int, wanted: int | None = None) -> dict:
    """Openings before and closings after their dead centres; negative when on the other side of it.

    wanted  the intake centreline to come to. `advance` is by how much the cam is early against it: positive advanced.

    Returns {intake: {duration, centreline}, exhaust: {duration, centreline}, lobe_separation, overlap, advance}; the intake
    centreline after top, the exhaust centreline before top; advance None without `wanted`.
    """
    intake = _lobe(intake_opens, intake_closes, intake_opens)
    exhaust = _lobe(exhaust_opens, exhaust_closes, exhaust_closes)
    whole = 2 * HALF_TURN + intake_opens + intake_closes + exhaust_opens + exhaust_closes
    separation = divided(whole - 2 * (intake_opens + exhaust_closes), 4)
    return {"intake": intake, "exhaust": exhaust, "lobe_separation": separation, "overlap": intake_opens + exhaust_closes,
            "advance": None if wanted is None else wanted - intake["centreline"]}


def _lobe(opens: int, closes: int, at_top: int) -> dict:
    duration = opens + HALF_TURN + closes
    return {"duration": duration, "centreline": divided(duration - 2 * at_top, 2)}
