"""Pressure that follows the surface it acts on."""

import copy
from typing import NamedTuple

import numpy as np

from .element import Element, Floats, StiffnessModel, cast_nodes, cast_positive
from .words import show_count, show_range


class PressureResult(NamedTuple):
    """Force (m, 3) N on each triangle."""

    force: Floats

    def __repr__(self) -> str:
        """Return one line."""
        return (
            f"PressureResult({show_count(len(self.force), 'triangle')}, "
            f"{show_range(np.linalg.norm(self.force, axis=1), 'N')} each)"
        )


class Pressure(Element):
    r"""Follower pressure on triangles, along the right-hand normal of their node order.

    Each corner receives :math:`p\,(u \times v)/6`, u and v the edges from the first corner. The energy
    is minus the work done along the straight way from where the structure first stands: a potential
    wherever the pressed surface is closed, or its rim is held or moves in planes.

    Parameters
    ----------
    triangles : (m, 3) int
        Nodes.
    pressure : float or (m,)
        N/m2, positive along the normal.

    Raises
    ------
    ValueError
        For wrong shapes or numbers that are not finite.

    Notes
    -----
    On a surface with a free rim the load has no potential; equilibrium is then judged by force alone.

    Examples
    --------
    >>> push = Pressure([[0, 1, 2]], 600.0)
    >>> push.result(np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0]], float)).force
    array([[  0.,   0., 300.]])
    """

    def __init__(self, triangles: object, pressure: object) -> None:
        self.connectivity = cast_nodes(triangles, 3, "triangles")
        count = len(self.connectivity)
        signed = np.asarray(pressure, dtype=np.float64)
        self.pressure = cast_positive(np.abs(signed), count, "pressure", zero=True) * np.sign(signed)
        self._reference: Floats | None = None

    def __repr__(self) -> str:
        """Return one line."""
        return f"Pressure({show_count(len(self.connectivity), 'triangle')}, {show_range(self.pressure, 'N/m2')})"

    def attach(self, positions: Floats) -> "Pressure":
        """Return this pressure with its work counted from ``positions``."""
        placed = copy.copy(self)
        placed._reference = positions.copy()
        return placed

    def _corner_force(self, positions: Floats) -> Floats:
        """Return the force (m, 3) N on each corner of each triangle."""
        corners = positions[self.connectivity]
        normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
        return np.asarray(self.pressure[:, None] * normal / 6)

    def energy(self, positions: Floats) -> float:
        """Return minus the work, J, from the reference; Simpson's rule is exact for it."""
        if self._reference is None:
            raise RuntimeError("Pressure counts its work from a structure: call attach(positions) first.")
        moved = (positions - self._reference)[self.connectivity].sum(axis=1)
        middle = (positions + self._reference) / 2
        mean = self._corner_force(self._reference) + 4 * self._corner_force(middle) + self._corner_force(positions)
        return -float((mean * moved).sum()) / 6

    def add_force(self, positions: Floats, force: Floats) -> None:
        """Add the pressure to ``force`` (n, 3) N."""
        np.add.at(force, self.connectivity, self._corner_force(positions)[:, None, :])

    def add_load(self, positions: Floats, load: Floats) -> None:
        """Count the pressure as applied load."""
        self.add_force(positions, load)

    def blocks(self, positions: Floats, model: StiffnessModel) -> Floats:
        """Return minus the change of force with displacement (m, 9, 9), N/m; none in the positive model."""
        count = len(self.connectivity)
        if model is not StiffnessModel.EXACT:
            return np.zeros((count, 9, 9))
        corners = positions[self.connectivity]
        turn_u, turn_v = (
            _cross_matrix(corners[:, 1] - corners[:, 0]),
            _cross_matrix(corners[:, 2] - corners[:, 0]),
        )
        row = np.concatenate([turn_v - turn_u, -turn_v, turn_u], axis=2) * (-self.pressure / 6)[:, None, None]
        return np.concatenate([row, row, row], axis=1)

    def result(self, positions: Floats) -> PressureResult:
        """Return the force on each triangle."""
        return PressureResult(3 * self._corner_force(positions))


def _cross_matrix(vectors: Floats) -> Floats:
    """Return matrices (m, 3, 3) with ``matrix @ w == cross(vector, w)``."""
    matrix = np.zeros((len(vectors), 3, 3))
    x, y, z = vectors.T
    matrix[:, 0, 1], matrix[:, 0, 2], matrix[:, 1, 2] = -z, y, -x
    matrix[:, 1, 0], matrix[:, 2, 0], matrix[:, 2, 1] = z, -y, x
    return matrix
