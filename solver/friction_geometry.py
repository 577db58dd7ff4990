r"""How far points of a body have slipped along a triangle, and how that changes with the nodes.

With x the nodes of a point, first the corners a, b, c of the triangle: :math:`u = \sum_a w_a x_a`,
:math:`N = (b-a)\times(c-a)`, :math:`s = u\cdot N`, :math:`m = N\cdot N`, and the square of the slip
:math:`q = u\cdot u - s^2/m`.
"""

from typing import NamedTuple, Self

import numpy as np

from .element import Floats
from .vectors import cross, make_cross_matrix, square

_EDGES = np.array([[-1.0, 1.0, 0.0], [-1.0, 0.0, 1.0]])  # b - a and c - a, of the corners


class Slips(NamedTuple):
    """Slips of p points with k nodes each."""

    weights: Floats  # (p, k)
    apart: Floats  # (p, 3) u, m
    edges: Floats  # (p, 2, 3) of the triangle, m
    face: Floats  # (p, 3) N, m2
    flat: Floats  # (p, 3) u along the triangle, m
    length: Floats  # (p,) its length, m

    @classmethod
    def of(cls, places: Floats, weights: Floats) -> Self:
        """Return the slips of points.

        Parameters
        ----------
        places : (p, k, 3)
            Of their nodes, the corners of the triangle first, m.
        weights : (p, k)
            Of the nodes; each row adds up to zero.
        """
        apart = (weights[:, None, :] @ places)[:, 0]
        edges = _EDGES @ places[:, :3]
        face = cross(edges[:, 0], edges[:, 1])
        flat = apart - _over(apart, face)[:, None] * face
        return cls(weights, apart, edges, face, flat, np.linalg.norm(flat, axis=1))

    def find_flat_slope(self) -> Floats:
        """Return dq/dx (p, k, 3) with the normal as it is, m."""
        return np.asarray(2.0 * self.weights[:, :, None] * self.flat[:, None, :])

    def find_slope(self) -> Floats:
        """Return dq/dx (p, k, 3), m."""
        slope = self.find_flat_slope()
        above = _over(self.apart, self.face)
        slope[:, :3] -= ((2.0 * above)[:, None] * (self.flat[:, None] @ self._turn())[:, 0]).reshape(-1, 3, 3)
        return slope

    def find_flat_bend(self) -> Floats:
        """Return half of d2q/dx2 (p, 3k, 3k) with the normal as it is."""
        normal = self.face / np.linalg.norm(self.face, axis=1, keepdims=True)
        return self._spread(np.eye(3) - square(normal, normal))

    def find_bend(self) -> Floats:
        """Return d2q/dx2 (p, 3k, 3k); the face N moves with the corners alone, the first nine numbers."""
        turn = self._turn()  # dN/dx
        s, m = (self.apart * self.face).sum(axis=1)[:, None, None], (self.face**2).sum(axis=1)[:, None, None]
        ds = (self.weights[:, :, None] * self.face[:, None]).reshape(len(turn), -1)
        ds[:, :9] += (self.apart[:, None] @ turn)[:, 0]
        dm = 2.0 * (self.face[:, None] @ turn)[:, 0]
        both = (self.weights[:, :, None, None] * turn[:, None]).reshape(len(turn), -1, 9)  # (du/dx)^T dN/dx
        side = 2.0 * s / m**2 * square(ds, dm) - 2.0 * s / m * both
        corners = -2.0 * s / m * self._twist(self.apart) - 2.0 * s**2 / m**3 * square(dm, dm)
        corners += 2.0 * s**2 / m**2 * (turn.swapaxes(1, 2) @ turn + self._twist(self.face))
        bend = 2.0 * self._spread(np.eye(3)) - 2.0 / m * square(ds, ds)
        bend[:, :, :9] += side
        bend[:, :9] += side.swapaxes(1, 2)
        bend[:, :9, :9] += corners
        return np.asarray(bend)

    def _spread(self, between: Floats) -> Floats:
        """Return matrices (p, 3k, 3k) of blocks ``between`` (3, 3) or (p, 3, 3), times the weights of either node."""
        pairs = square(self.weights, self.weights)[:, :, None, :, None]
        size = 3 * self.weights.shape[1]
        return np.asarray((pairs * between[..., None, :, None, :]).reshape(-1, size, size))

    def _turn(self) -> Floats:
        """Return dN/d(corners) (p, 3, 9): N changes by (b-a) x dc - (c-a) x db with each edge."""
        first, second = -make_cross_matrix(self.edges[:, 1]), make_cross_matrix(self.edges[:, 0])
        turn = np.stack([-first - second, first, second], axis=2)  # (p, 3, corner, 3)
        return np.asarray(turn.reshape(len(turn), 3, 9))

    def _twist(self, along: Floats) -> Floats:
        """Return d2(v . N)/d(corners)2 (p, 9, 9) for a vector v (p, 3) that is held."""
        pair = -make_cross_matrix(along)  # p . (q x v) = -p . [v]x q
        twist = np.kron(np.outer(_EDGES[0], _EDGES[1]), pair)
        return np.asarray(twist + twist.swapaxes(1, 2))


def _over(apart: Floats, face: Floats) -> Floats:
    """Return s/m (p,)."""
    return np.asarray((apart * face).sum(axis=1) / (face**2).sum(axis=1))
