"""What holds a person off the middle between both side cords, and nothing outside takes force or moment."""

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from .restraint import Restraint


class SidewaysHold(Restraint):
    r"""Spring between the middle of a person and both side cords, along the line from one cord to the other.

    Energy :math:`\tfrac12 k\,(s - b)^2` with :math:`s = (c - \tfrac{l+r}{2})\cdot\frac{l-r}{|l-r|}`: c the person's
    centre of mass, l and r the middles of both side cords' nodes, b the offset. However the hammock swings and turns,
    s stays, so that the forces of the spring add up to no force and no moment: on the person the push, on the cords
    the same backwards, and up on one and down on the other what the lever of the push below them takes. A push along a
    fixed direction has a moment, which turns hammock and person over together about the line through the apexes.

    Parameters
    ----------
    body : (h,) int
        Nodes of the person.
    shares : (h,)
        Their share of the mass, adding up to 1.
    left, right : (c,), (d,) int
        Nodes of the side cords.
    stiffness : float
        N/m.
    offset : float
        To the left of the middle, m.

    Notes
    -----
    That the line turns is part of the force, not of the stiffness: it is smaller than the rest by the force over the
    stiffness and the distance between the cords.

    Examples
    --------
    >>> hold = SidewaysHold(np.array([2]), np.ones(1), np.array([0]), np.array([1]), 1e3)
    >>> places = np.array([[0.0, 0.4, 0.0], [0.0, -0.4, 0.0], [0.0, 0.01, -0.3]])
    >>> force = np.zeros((3, 3))
    >>> hold.add_force(places, force)
    >>> force.round(2).tolist()  # on both cords and the person
    [[0.0, 5.0, 3.75], [0.0, 5.0, -3.75], [0.0, -10.0, 0.0]]
    """

    def __init__(
        self,
        body: IntegerArray,
        shares: FloatArray,
        left: IntegerArray,
        right: IntegerArray,
        stiffness: float,
        *,
        offset: float = 0.0,
    ) -> None:
        super().__init__(np.concatenate([body, left, right]), stiffness, offset)
        self.body, self.shares, self.left, self.right = body, shares, left, right

    def _measure(self, positions: FloatArray) -> tuple[float, FloatArray]:
        """Return how far the person is to the left of the middle, m, and the gradient of that (p, 3)."""
        left, right = (positions[side].mean(axis=0) for side in (self.left, self.right))
        between, off = left - right, self.shares @ positions[self.body] - (left + right) / 2
        width = float(np.linalg.norm(between))
        along = between / width
        shift = float(off @ along)
        turn = (off - shift * along) / width
        gradient = np.concatenate([
            np.outer(self.shares, along),
            np.tile((turn - along / 2) / len(self.left), (len(self.left), 1)),
            np.tile((-turn - along / 2) / len(self.right), (len(self.right), 1)),
        ])  # fmt: skip
        return shift, gradient
