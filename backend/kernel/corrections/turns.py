"""Turns of an adjusting screw to the wanted figure.

Law: one turn moves the screw by its pitch, and the figure by pitch x ratio of what lies between. The answer is given to the
nearest DEGREES, because no hand turns finer, with the figure that this leaves.
"""
from __future__ import annotations

from .within import divided, excess, target

MILLION = 1000000
ROUND = 360
DEGREES = 5


def turns(figure: int, limit: dict, pitch: int, ratio: int = MILLION) -> dict:
    """How far to turn.

    figure  what it reads, nm; limit {low, high, aim}
    pitch   nm a turn; positive when turning in takes the figure down (lash), negative when it brings it up (preload)
    ratio   what the figure moves by for each unit of the screw, millionths (a rocker); 1,000,000 where nothing lies between

    Returns {degrees, way, figure, cures}: whole degrees, way "in", "out" or "" when it may stay, the figure it leaves.
    Raises ValueError for a pitch or ratio of nothing, or a limit that says nothing.
    """
    wanted = target(limit)
    if wanted is None or not pitch or ratio <= 0:
        raise ValueError("Turns need a pitch, a ratio above nothing, and a limit or an aim.")
    a_turn = pitch * ratio
    degrees = divided((figure - wanted) * ROUND * MILLION, a_turn * DEGREES) * DEGREES
    leaves = figure - divided(degrees * a_turn, ROUND * MILLION)
    return {"degrees": abs(degrees), "way": "in" if degrees > 0 else "out" if degrees else "", "figure": leaves,
            "cures": not excess(leaves, limit)}
