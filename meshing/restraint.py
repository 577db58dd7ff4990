"""A spring that holds one measure of where many nodes stand."""

from abc import abstractmethod
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from ..solver import Element, StiffnessColumn, StiffnessModel


class RestraintResult(NamedTuple):
    """Force on the person in the direction that is held, N, and how far the person slips, m."""

    force: float
    slip: float


class Restraint(Element):
    r"""Spring of energy :math:`\tfrac12 k\,(s - b)^2`, s a length that many nodes have in common, b the offset.

    Parameters
    ----------
    path : (p,) int
        Nodes that s depends on.
    stiffness : float
        k, N/m.
    offset : float
        b, m.

    Notes
    -----
    Where the gradient of s changes, that change counts in the force and not in the stiffness.
    """

    def __init__(self, path: IntegerArray, stiffness: float, offset: float) -> None:
        self._path = path
        self.connectivity = path[:, None]
        self.stiffness, self.offset = stiffness, offset

    @abstractmethod
    def _measure(self, positions: FloatArray) -> tuple[float, FloatArray]:
        """Return s, m, and its gradient (p, 3)."""

    def energy(self, positions: FloatArray) -> float:
        """Return the stored energy, J."""
        return 0.5 * self.stiffness * (self._measure(positions)[0] - self.offset) ** 2

    def add_force(self, positions: FloatArray, force: FloatArray) -> None:
        """Add the hold to ``force`` (n, 3) N."""
        length, gradient = self._measure(positions)
        np.add.at(force, self._path, -self.stiffness * (length - self.offset) * gradient)

    def blocks(self, positions: FloatArray, model: StiffnessModel) -> FloatArray:
        """Return empty blocks: all the stiffness is in one rank-one column."""
        return np.zeros((len(self._path), 3, 3))

    def columns(self, positions: FloatArray, model: StiffnessModel) -> Iterator[StiffnessColumn]:
        """Yield the one spring."""
        yield StiffnessColumn(self._path, self._measure(positions)[1], self.stiffness)

    def column_nodes(self) -> list[IntegerArray]:
        """Return the nodes of the one spring."""
        return [self._path]

    def result(self, positions: FloatArray) -> RestraintResult:
        """Return force on the person and slip."""
        slip = self._measure(positions)[0] - self.offset
        return RestraintResult(-self.stiffness * slip, slip)
