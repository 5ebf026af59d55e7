"""What to order from the machine shop: what a size must come to so that its fit is at its aim.

Law: metal comes off; it does not go back on. A cut moves the size one way only, and where the wanted size lies the other way
no cutting cures it. Nothing more is cut than the fit asks for.
"""
from __future__ import annotations

from .one_size import one_size
from .within import excess

UP, DOWN = "up", "down"


def cut(now: int, figures: list, moves: str, at: int | None = None) -> dict:
    """The size to cut to.

    now      what the point reads
    figures  as `one_size` takes them: each figure that rests on the point, were it to read `at` (None: as it reads now)
    moves    "up" when cutting makes the reading larger (a bore), "down" when smaller (a deck)

    Returns {to, by, cures, why}: the reading to come to, how much that is from now (its sign the way it moves), and why not:
    "in" (nothing is out, nothing to cut), "wrong_way" (it would have to move the other way), "held" (a figure that is out
    does not depend on it), "apart" (no one size brings all in), or "".
    """
    if moves not in (UP, DOWN):
        raise ValueError("A cut moves a size up or down.")
    if at is None and not any([excess(figure["value"], figure) for figure in figures]):
        return _none("in")
    near = now if at is None else at
    found = one_size(near, figures, now if moves == UP else None, now if moves == DOWN else None)
    if found["best"] is not None:
        return {"to": found["best"], "by": found["best"] - now, "cures": True, "why": ""}
    if found["held"]:
        return _none("held")
    return _none("apart" if one_size(near, figures)["best"] is None else "wrong_way")


def _none(why: str) -> dict:
    return {"to": None, "by": None, "cures": why == "in", "why": why}
