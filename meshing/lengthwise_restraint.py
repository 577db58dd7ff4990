"""Restraint of a person against sliding on the cloth: the friction that is needed."""

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from .restraint import Restraint


class LengthwiseRestraint(Restraint):
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
        super().__init__(np.concatenate([body, cloth]), stiffness, offset)
        self._gradient = np.zeros((len(self._path), 3))
        self._gradient[:, axis] = np.concatenate([body_shares, -cloth_shares])

    def _measure(self, positions: FloatArray) -> tuple[float, FloatArray]:
        """Return how far the body has moved along the axis over the cloth, m, and the gradient of that (p, 3)."""
        return float(np.vdot(self._gradient, positions[self._path])), self._gradient
