"""Restraint of a person against sliding on the cloth: the friction that is needed."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from ..solver import Element, StiffnessColumn, StiffnessModel


class LengthwiseRestraintResult(NamedTuple):
    """Force on the person along the axis, N, and how far the person slips, m."""

    force: float
    slip: float


class LengthwiseRestraint(Element):
    r"""Spring along one axis between points of a person and the cloth underneath, weighted as the load is.

    Energy :math:`\tfrac12 k\,(\sum_i w_i x_i - \sum_j v_j x_j - b)^2`, b the offset, w the shares of the body's
    nodes and v those of the cloth's: cloth and body pull on each other as even friction does, and nothing outside
    holds them. Without it a person slides on smooth cloth to where the hammock is lowest.

    Parameters
    ----------
    body, cloth : (h,), (c,) int
        Nodes.
    body_shares, cloth_shares : (h,), (c,)
        Each adds up to 1.
    axis : int
        0 along the hammock (force positive towards the feet), 1 across (positive to the left).
    stiffness : float
        N/m.
    offset : float
        Where the body is to be held, against the cloth, m.
    """

    def __init__(  # things that stand side by side in the formula
        self,
        body: IntegerArray,
        cloth: IntegerArray,
        body_shares: FloatArray,
        cloth_shares: FloatArray,
        axis: int,
        stiffness: float,
        *,
        offset: float = 0.0,
    ) -> None:
        self._path = np.concatenate([body, cloth])
        self.connectivity = self._path[:, None]
        self._gradient = np.zeros((len(self._path), 3))
        self._gradient[:, axis] = np.concatenate([body_shares, -cloth_shares])
        self.stiffness = stiffness
        self.offset = offset

    def _slip(self, positions: FloatArray) -> float:
        """Return how far the body has moved along the axis over the cloth from where it is held, m."""
        return float(np.vdot(self._gradient, positions[self._path])) - self.offset

    def energy(self, positions: FloatArray) -> float:
        """Return the stored energy, J."""
        return 0.5 * self.stiffness * self._slip(positions) ** 2

    def add_force(self, positions: FloatArray, force: FloatArray) -> None:
        """Add the hold to ``force`` (n, 3) N."""
        np.add.at(force, self._path, -self.stiffness * self._slip(positions) * self._gradient)

    def blocks(self, positions: FloatArray, model: StiffnessModel) -> FloatArray:
        """Return empty blocks: all the stiffness is in one rank-one column."""
        return np.zeros((len(self._path), 3, 3))

    def columns(self, positions: FloatArray, model: StiffnessModel) -> Iterator[StiffnessColumn]:
        """Yield the one spring."""
        yield StiffnessColumn(self._path, self._gradient, self.stiffness)

    def column_nodes(self) -> list[IntegerArray]:
        """Return the nodes of the one spring."""
        return [self._path]

    def result(self, positions: FloatArray) -> LengthwiseRestraintResult:
        """Return force on the person and slip."""
        slip = self._slip(positions)
        return LengthwiseRestraintResult(-self.stiffness * slip, slip)
