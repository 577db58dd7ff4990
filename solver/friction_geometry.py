r"""How far points of a body have slipped along a triangle, and how that changes with the nodes.

With x the nodes of a point, first the corners a, b, c of the triangle: :math:`u = \sum_a w_a x_a`,
:math:`N = (b-a)\times(c-a)`, :math:`s = u\cdot N`, :math:`m = N\cdot N`, and the square of the slip
:math:`q = u\cdot u - s^2/m`.
"""

from typing import NamedTuple, Self

import numpy as np

from .element import Floats

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
        apart = np.einsum("pk,pki->pi", weights, places)
        edges = np.einsum("ej,pji->pei", _EDGES, places[:, :3])
        face = np.cross(edges[:, 0], edges[:, 1])
        flat = apart - _over(apart, face)[:, None] * face
        return cls(weights, apart, edges, face, flat, np.linalg.norm(flat, axis=1))

    def find_flat_slope(self) -> Floats:
        """Return dq/dx (p, k, 3) with the normal as it is, m."""
        return np.asarray(2.0 * self.weights[:, :, None] * self.flat[:, None, :])

    def find_slope(self) -> Floats:
        """Return dq/dx (p, k, 3), m."""
        slope = self.find_flat_slope()
        above = _over(self.apart, self.face)
        slope[:, :3] += np.einsum("p,pij,pi->pj", -2.0 * above, self._turn(), self.flat).reshape(-1, 3, 3)
        return slope

    def find_flat_bend(self) -> Floats:
        """Return half of d2q/dx2 (p, 3k, 3k) with the normal as it is."""
        normal = self.face / np.linalg.norm(self.face, axis=1, keepdims=True)
        across = np.eye(3) - normal[:, :, None] * normal[:, None, :]
        bend = np.einsum("pa,pb,pij->paibj", self.weights, self.weights, across)
        size = 3 * self.weights.shape[1]
        return np.asarray(bend.reshape(len(bend), size, size))

    def find_bend(self) -> Floats:
        """Return d2q/dx2 (p, 3k, 3k)."""
        count, size = len(self.weights), 3 * self.weights.shape[1]
        move = np.einsum("pk,ij->pikj", self.weights, np.eye(3)).reshape(count, 3, size)  # du/dx
        turn = np.zeros((count, 3, size))  # dN/dx
        turn[:, :, :9] = self._turn()
        s, m = np.einsum("pi,pi->p", self.apart, self.face), np.einsum("pi,pi->p", self.face, self.face)
        ds = np.einsum("pij,pi->pj", move, self.face) + np.einsum("pij,pi->pj", turn, self.apart)
        dm = 2.0 * np.einsum("pij,pi->pj", turn, self.face)
        both = np.einsum("pij,pik->pjk", move, turn)
        dds = both + both.swapaxes(1, 2)
        dds[:, :9, :9] += self._twist(self.apart)
        ddm = 2.0 * np.einsum("pij,pik->pjk", turn, turn)
        ddm[:, :9, :9] += 2.0 * self._twist(self.face)
        mixed = ds[:, :, None] * dm[:, None, :]
        share, square = (s / m)[:, None, None], (s**2 / m**2)[:, None, None]
        return np.asarray(
            2.0 * np.einsum("pij,pik->pjk", move, move)
            - 2.0 * ds[:, :, None] * ds[:, None, :] / m[:, None, None]
            - 2.0 * share * dds
            + 2.0 * share / m[:, None, None] * (mixed + mixed.swapaxes(1, 2))
            + square * ddm
            - 2.0 * square / m[:, None, None] * dm[:, :, None] * dm[:, None, :]
        )

    def _turn(self) -> Floats:
        """Return dN/d(corners) (p, 3, 9): N changes by (b-a) x dc - (c-a) x db with each edge."""
        first, second = -_cross_matrix(self.edges[:, 1]), _cross_matrix(self.edges[:, 0])
        turn = np.stack([-first - second, first, second], axis=2)  # (p, 3, corner, 3)
        return np.asarray(turn.reshape(len(turn), 3, 9))

    def _twist(self, along: Floats) -> Floats:
        """Return d2(v . N)/d(corners)2 (p, 9, 9) for a vector v (p, 3) that is held."""
        pair = -_cross_matrix(along)  # p . (q x v) = -p . [v]x q
        twist = np.einsum("j,k,pil->pjikl", _EDGES[0], _EDGES[1], pair).reshape(len(pair), 9, 9)
        return np.asarray(twist + twist.swapaxes(1, 2))


def _over(apart: Floats, face: Floats) -> Floats:
    """Return s/m (p,)."""
    return np.asarray(np.einsum("pi,pi->p", apart, face) / np.einsum("pi,pi->p", face, face))


def _cross_matrix(v: Floats) -> Floats:
    """Return the matrices [v]x (p, 3, 3) with [v]x w = v x w."""
    matrix = np.zeros((len(v), 3, 3))
    matrix[:, 2, 1], matrix[:, 0, 2], matrix[:, 1, 0] = v[:, 0], v[:, 1], v[:, 2]
    return matrix - matrix.swapaxes(1, 2)
