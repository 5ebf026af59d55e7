"""The oil film of a plain journal bearing under a steady load.

Law: the film is thinner where the Sommerfeld number S = (r/c)^2 u N / P is smaller; r and c are radii. A bench clearance is
diametral, and d / clearance is the same figure as r / c. Integers on the grid in and out; floats only in between, and only
+ - * / and a root, so that both runtimes give the same figure.
"""
from __future__ import annotations

import math

# Sommerfeld number at an eccentricity, for length / diameter 1/4, 1/2 and 1: full bearing, film that ruptures where its
# pressure falls to nothing. Worked out with the finite-difference solution of the Reynolds equation in
# tests/published/reynolds.py (1080 x 36 mesh; 540 x 36 below 0.85). Where Raimondi and Boyd's charts (ASLE Transactions 1,
# 1958) could be read, S = 0.121 at l/d 1 and S = 0.319 at l/d 1/2 for an eccentricity of 0.60, they agree within 0.2 %.
ROWS = (
    (0.1, (16.22674, 4.32707, 1.33008)),
    (0.2, (7.57974, 2.03222, 0.63193)),
    (0.3, (4.49771, 1.22008, 0.38890)),
    (0.4, (2.84173, 0.78560, 0.26046)),
    (0.5, (1.79164, 0.50941, 0.17867)),
    (0.6, (1.07815, 0.31936, 0.12097)),
    (0.7, (0.58756, 0.18510, 0.07783)),
    (0.8, (0.26334, 0.09174, 0.04457)),
    (0.85, (0.15311, 0.05772, 0.03085)),
    (0.9, (0.07367, 0.03125, 0.01883)),
    (0.95, (0.02297, 0.01194, 0.00845)),
    (0.97, (0.01041, 0.00621, 0.00479)),
)
SLENDER = (0.25, 0.5, 1.0)
LAST = ROWS[len(ROWS) - 1][0]
NEEDS = ("clearance", "journal", "length", "load", "viscosity", "speed")


def film(case: dict) -> dict | None:
    """What the oil does in one bearing; None when a figure of `case` is not above zero.

    `case`: clearance (diametral), journal (diameter), length: nm; load: micronewton; viscosity: uPa.s; speed: milli-rpm.
    Gives film (thinnest place) in nm, eccentricity, short_eccentricity (Ocvirk), sommerfeld, petroff (friction
    coefficient) in ppm, pressure (load over projected area) in mPa; `beyond` when the film is thinner than the table reaches.
    """
    for name in NEEDS:
        if case[name] <= 0:
            return None
    s = _sommerfeld(case)
    slender = float(case["length"]) / float(case["journal"])
    counted = min(slender, 1.0)
    ecc = _falling(_number_at(counted), s * counted * counted)
    radial = float(case["clearance"]) / 2
    slim = float(case["journal"]) / float(case["clearance"])
    return {"film": _grid(radial * (1 - ecc)), "eccentricity": _grid(1e6 * ecc), "beyond": ecc >= LAST,
            "short_eccentricity": _grid(1e6 * _falling(short_bearing, s * slender * slender)), "sommerfeld": _grid(1e6 * s),
            "petroff": _grid(1e6 * 2 * math.pi * math.pi * s / slim),
            "pressure": _grid(1e15 * float(case["load"]) / (float(case["journal"]) * float(case["length"])))}


def _sommerfeld(case: dict) -> float:
    """S as a float: (d/c)^2 u N d l / W, each figure taken off the grid first."""
    d, length = case["journal"] * 1e-9, case["length"] * 1e-9
    slim = float(case["journal"]) / float(case["clearance"])
    return slim * slim * (case["viscosity"] * 1e-6) * (case["speed"] / 60000.0) * d * length / (case["load"] * 1e-6)


def short_bearing(ecc: float) -> float:
    """S (l/d)^2 at an eccentricity by short-bearing theory (Ocvirk): exact for a bearing much shorter than its diameter."""
    left = 1 - ecc * ecc
    return left * left / (math.pi * ecc * math.sqrt(math.pi * math.pi * left + 16 * ecc * ecc))


def _number_at(slender: float):
    """S (l/d)^2 as a function of eccentricity, for one length: the short-bearing number, stretched as the table says.

    The stretch less one, times (1 - eccentricity) / (l/d)^2, is smooth (0.3 to 0.65): a parabola through the three lengths,
    straight between rows. A bearing longer than its diameter counts as l/d 1, which is the thinner film.
    """
    weights = _weights(slender)
    excess = [sum([w * _row_excess(row, i) for i, w in enumerate(weights)]) for row in ROWS]

    def number(ecc: float) -> float:
        at = 1
        while at < len(ROWS) - 1 and ROWS[at][0] < ecc:
            at += 1
        share = max(0.0, (ecc - ROWS[at - 1][0]) / (ROWS[at][0] - ROWS[at - 1][0]))
        here = excess[at - 1] * (1 - share) + excess[at] * share
        return short_bearing(ecc) * (1 + here * slender * slender / (1 - ecc))
    return number


def _weights(slender: float) -> list[float]:
    """Lagrange's weights of the three lengths at this one."""
    out = []
    for i in range(len(SLENDER)):
        weight = 1.0
        for j in range(len(SLENDER)):
            if j != i:
                weight = weight * (slender - SLENDER[j]) / (SLENDER[i] - SLENDER[j])
        out.append(weight)
    return out


def _row_excess(row: tuple, i: int) -> float:
    area = SLENDER[i] * SLENDER[i]
    return (row[1][i] * area / short_bearing(row[0]) - 1) * (1 - row[0]) / area


def _falling(number, wanted: float) -> float:
    """The eccentricity at which a falling `number` is `wanted`, by halving; at most where the table ends."""
    low, high = 1e-6, LAST
    for _ in range(48):
        middle = (low + high) / 2
        if number(middle) > wanted:
            low = middle
        else:
            high = middle
    return high


def _grid(value: float) -> int:
    return math.floor(value + 0.5)
