"""The weight that stands for rod, piston and pin while a crank is balanced.

Law: bobweight = rotating + factor x reciprocating + oil. Rotating: the big ends and shells of the throw. Reciprocating:
pistons, pins, clips, rings and small ends of the throw. The factor is the crank maker's or the balancer's choice; half for
the usual 90 degree V8 (from memory, unverified). Rods on a throw count once each, so weights are of the whole throw.
"""
from __future__ import annotations

from .within import divided

MILLION = 1000000


def bobweight(rotating: list, reciprocating: list, oil: int, factor: int) -> dict:
    """Weights in micrograms, factor in millionths; rounded once, half away from zero.

    Returns {bobweight, rotating, reciprocating}: the weight to bolt on and the two sums it is made of.
    """
    turning, going = sum(rotating), sum(reciprocating)
    return {"bobweight": divided((turning + oil) * MILLION + factor * going, MILLION), "rotating": turning, "reciprocating": going}
