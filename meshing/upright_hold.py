"""What keeps a trunk at an angle to the plumb line: balance, which may take a moment from outside."""

from math import atan2

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from .restraint import Restraint


class UprightHold(Restraint):
    r"""Spring between the lean of a trunk, from hips to shoulders, and the plumb line, about one level axis.

    Energy :math:`\tfrac12 k\,(\varphi - b)^2` with :math:`\varphi = \operatorname{atan2}(-v_a, v_z)`, v the way from
    hips to shoulders, a the axis of the room along which it leans, b the offset. Weights add up to 0, so that there is
    no force; the moment is one from outside, unlike that of hands on the hammock. Whoever balances needs none: the lean
    is to be chosen so that it vanishes.

    Parameters
    ----------
    body : (h,) int
        Nodes.
    weights : (h,)
        Add up to 0, and give the way from hips to shoulders.
    axis : int
        0: along the hammock, lean positive to the head; 1: across, lean positive to the right.
    stiffness : float
        N m/rad.
    offset : float
        Lean at which the trunk is to be held, rad.

    Examples
    --------
    >>> hold = UprightHold(np.array([0, 1]), np.array([-1.0, 1.0]), 1, 100.0)
    >>> places = np.array([[0.0, 0.0, 0.0], [0.0, -0.1, 0.5]])
    >>> force, slip = hold.result(places)
    >>> round(force, 2), round(slip, 4)  # leans to the right by 11 degrees, is turned back
    (-19.74, 0.1974)
    """

    def __init__(
        self, body: IntegerArray, weights: FloatArray, axis: int, stiffness: float, *, offset: float = 0.0
    ) -> None:
        super().__init__(body, stiffness, offset)
        self.weights, self.axis = weights, axis

    def _measure(self, positions: FloatArray) -> tuple[float, FloatArray]:
        """Return the lean, rad, and its gradient (h, 3)."""
        way = self.weights @ positions[self._path]
        aside, up = float(way[self.axis]), float(way[2])
        square = aside**2 + up**2
        gradient = np.zeros((len(self._path), 3))
        gradient[:, self.axis] = -up / square * self.weights
        gradient[:, 2] = aside / square * self.weights
        return atan2(-aside, up), gradient
