"""What raises a trunk: a moment between it and the side cords, as hands on these give."""

from math import atan2

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from .restraint import Restraint


class PitchHold(Restraint):
    r"""Spring between the slope of a line in a person and that of the side cords, in the side view.

    Energy :math:`\tfrac12 k\,(\varphi - \psi - b)^2`, k in N m/rad, with the slopes
    :math:`\tan\varphi = \frac{\sum_i w_i z_i}{-\sum_i w_i x_i}` of the person's nodes and :math:`\psi` likewise of the
    cords', rising to the head. Weights of either add up to 0, so that the forces add up to none; both slopes turn with
    whatever turns as a whole, so that they have no moment either: nothing outside helps.

    Parameters
    ----------
    body, cords : (h,), (c,) int
        Nodes.
    body_weights, cord_weights : (h,), (c,)
        Each adds up to 0, and gives a way from feet to head.
    stiffness : float
        N m/rad.
    offset : float
        Slope at which the body is to be held against the cords, rad.

    Examples
    --------
    >>> ends = np.array([-1.0, 1.0])
    >>> hold = PitchHold(np.array([0, 1]), np.array([2, 3]), ends, ends, 100.0, offset=np.pi / 2)
    >>> places = np.array([[0.0, 0.0, 0.0], [-0.5, 0.0, 0.0], [1.0, 0.0, 0.3], [-1.0, 0.0, 0.3]])
    >>> force = np.zeros((4, 3))
    >>> hold.add_force(places, force)
    >>> force[:, 2].round(1).tolist()  # raises the upper end of the body, presses the cords down at the head
    [-314.2, 314.2, 78.5, -78.5]
    """

    def __init__(
        self,
        body: IntegerArray,
        cords: IntegerArray,
        body_weights: FloatArray,
        cord_weights: FloatArray,
        stiffness: float,
        *,
        offset: float = 0.0,
    ) -> None:
        super().__init__(np.concatenate([body, cords]), stiffness, offset)
        none, nothing = np.zeros(len(body)), np.zeros(len(cords))
        self._lines = np.concatenate([body_weights, nothing]), np.concatenate([none, cord_weights])

    def _measure(self, positions: FloatArray) -> tuple[float, FloatArray]:
        """Return how much steeper the body is than the cords, rad, and the gradient of that (p, 3)."""
        angle, gradient = 0.0, np.zeros((len(self._path), 3))
        for weights, sign in zip(self._lines, (1.0, -1.0), strict=True):
            along, _, up = weights @ positions[self._path]
            square = along**2 + up**2
            angle += sign * atan2(up, -along)
            gradient[:, 0] += sign * up / square * weights
            gradient[:, 2] -= sign * along / square * weights
        return angle, gradient
