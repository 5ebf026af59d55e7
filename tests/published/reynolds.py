"""The Reynolds equation of a full journal bearing by finite differences: an independent check of the kernel's film table.

Steady load, one viscosity, no misalignment. Film h = 1 + e cos t; pressure nothing at the edges and where the film is
widest; where it would fall below nothing the film ruptures, with no slope there (Reynolds' condition). The rupture is found
by trying which places carry pressure until none changes, which is exact for this kind of problem.
Pressure is in units of 6 u w (r/c)^2, lengths along the bearing in half lengths.
"""

from __future__ import annotations

import numpy as np
from scipy.sparse import coo_matrix, diags
from scipy.sparse.linalg import spsolve


def solve(eccentricity: float, slender: float, around: int = 360, across: int = 24) -> dict[str, float]:
    """S, attitude angle in degrees, (r/c)f, Q/rcNl and mean over greatest pressure, at an eccentricity and l/d `slender`."""
    mesh = Mesh(eccentricity, slender, around, across)
    pressure = mesh.pressure()
    line = 2 * pressure @ mesh.weights
    along = np.sum(line * np.cos(mesh.angle)) * mesh.step
    athwart = np.sum(line * np.sin(mesh.angle)) * mesh.step
    load = np.hypot(along, athwart)
    slope = np.diff(pressure, axis=0) / mesh.step
    shear = 2 * np.sum(1 / mesh.film[:-1]) * mesh.step
    wedge = 2 * np.sum((3 * mesh.between[:, None] * slope) @ mesh.weights) * mesh.step
    inlet = np.sum((mesh.between[0] / 2 - mesh.between[0] ** 3 * slope[0] / 2) * mesh.weights)
    return {
        "S": 1 / (3 * np.pi * load),
        "attitude": float(np.degrees(np.arctan2(athwart, -along))),
        "friction": (shear + wedge) / (6 * load),
        "flow": 2 * np.pi * inlet,
        "pressure": load / (4 * pressure.max()),
    }


class Mesh:
    """Half the bearing, from its middle to its edge, all the way round from the widest film."""

    def __init__(self, eccentricity: float, slender: float, around: int, across: int):
        self.angle = np.linspace(0, 2 * np.pi, around + 1)
        self.step = self.angle[1]
        self.film = 1 + eccentricity * np.cos(self.angle)
        self.between = 1 + eccentricity * np.cos(self.angle[:-1] + self.step / 2)
        self.slender, self.around, self.across = slender, around, across
        self.weights = np.full(across + 1, 1 / across)
        self.weights[0] = self.weights[-1] = 0.5 / across

    def equations(self):
        """The matrix and right side for the places inside: around - 1 by across."""
        i, j = np.meshgrid(np.arange(1, self.around), np.arange(self.across), indexing="ij")
        ahead, behind = self.between[i] ** 3 / self.step**2, self.between[i - 1] ** 3 / self.step**2
        outward = np.repeat((self.film[1:-1] ** 3 * (self.across / self.slender) ** 2)[:, None], self.across, axis=1)
        inward = outward.copy()
        outward[:, 0] *= 2  # the other half is the same
        inward[:, 0] = 0
        rows, columns, values = [], [], []
        sides = ((ahead, i + 1, j, i < self.around - 1), (behind, i - 1, j, i > 1))
        sides += ((outward, i, j + 1, j < self.across - 1), (inward, i, j - 1, j > 0))
        for share, to_i, to_j, inside in sides:
            rows.append(((i - 1) * self.across + j)[inside])
            columns.append(((to_i - 1) * self.across + to_j)[inside])
            values.append(-share[inside])
        size = (self.around - 1) * self.across
        beside = coo_matrix((np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))), shape=(size, size))
        right = -(self.between[i] - self.between[i - 1]) / self.step
        return beside.tocsr() + diags((ahead + behind + outward + inward).ravel()), right.ravel()

    def pressure(self) -> np.ndarray:
        matrix, right = self.equations()
        carries = np.ones(len(right), bool)
        for _ in range(200):
            chosen = diags(carries.astype(float))
            found = spsolve((chosen @ matrix + diags(1.0 - carries)).tocsc(), right * carries)
            again = found > matrix @ found - right
            if (again == carries).all():
                break
            carries = again
        else:
            raise ArithmeticError("The edge of the ruptured film was not found.")
        out = np.zeros((self.around + 1, self.across + 1))
        out[1:-1, :-1] = np.maximum(found.reshape(self.around - 1, self.across), 0)
        return out
