"""Half a spreader bar, cut by the plane of symmetry."""

import numpy as np

from ..hammock.arrays import FloatArray
from ..solver import Element, StiffnessModel, StrutResult


class MirroredStrut(Element):
    r"""Compression-only bar from a node to its mirror image across y = 0.

    By symmetry it is level across and pushes along y only: with :math:`l = 2y` the thrust is
    :math:`EA\,(L_0-l)/L_0` and half the stored energy belongs to this half.

    Parameters
    ----------
    node : int
        End of the bar at positive y.
    ea : float
        Axial stiffness, N.
    rest_length : float
        Of the whole bar, m.
    """

    def __init__(self, node: int, ea: float, rest_length: float) -> None:
        self.node = node
        self.ea = ea
        self.rest_length = rest_length
        self.connectivity = np.array([[node]])

    def _thrust(self, positions: FloatArray) -> float:
        """Return the thrust, N."""
        return max(self.ea * (1 - 2 * float(positions[self.node, 1]) / self.rest_length), 0.0)

    def energy(self, positions: FloatArray) -> float:
        """Return half the energy of the bar, J."""
        return self._thrust(positions) ** 2 * self.rest_length / (4 * self.ea)

    def add_force(self, positions: FloatArray, force: FloatArray) -> None:
        """Add the thrust to ``force`` (n, 3) N."""
        force[self.node, 1] += self._thrust(positions)

    def blocks(self, positions: FloatArray, model: StiffnessModel) -> FloatArray:
        """Return the stiffness (1, 3, 3), N/m."""
        stiff = model is StiffnessModel.TAUT or self._thrust(positions) > 0
        return np.diag([0.0, 2 * self.ea / self.rest_length if stiff else 0.0, 0.0])[None]

    def result(self, positions: FloatArray) -> StrutResult:
        """Return thrust and length of the whole bar."""
        return StrutResult(np.array([self._thrust(positions)]), np.array([2 * positions[self.node, 1]]))
