"""One edge of a piece: its finished line, what is done to it, and the cloth beyond it."""

from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property

import numpy as np

from ..hammock.arrays import FloatArray
from ..materials.short_repr import write_repr, write_value


class Treatment(StrEnum):
    """What is done to an edge."""

    CHANNEL = "channel"  # folded round the side cord
    HEM = "hem"  # turned in twice
    LEG = "channel of the leg"  # turned in twice round a leg, which slides in it
    ROLLED = "narrow hem"  # turned in twice, narrow, where it is bent or little cloth is left
    SEAM = "seam"  # sewn to another piece
    RAW = "raw"  # nothing: the finished line is the cut


@dataclass(frozen=True)
class PieceEdge:
    """One edge; all edges of a piece follow each other with the cloth on their left.

    Parameters
    ----------
    name : str
        Such as ``left`` or ``head end``.
    points : (n, 2)
        Vertices of the finished line, m.
    normals : (n, 2)
        Unit vectors out of the cloth, exact for the curve that the vertices stand for.
    treatment : Treatment
        What is done to it.
    allowance : float
        Cloth beyond the finished line, m; below zero the piece ends short of it.
    fold : float
        Distance of a second fold beyond the finished line, m; 0 is none.
    start : float
        Distance of the first vertex along the whole edge of which this is a part, m.
    """

    name: str
    points: FloatArray
    normals: FloatArray
    treatment: Treatment
    allowance: float = 0.0
    fold: float = 0.0
    start: float = 0.0

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{self.name}, {self.treatment}",
            f"{write_value(self.length, 'length')} long",
            f"allowance {write_value(self.allowance, 'length')}",
        )

    @cached_property
    def distances(self) -> FloatArray:
        """Distance of each vertex from the first along the finished line (n,), m."""
        return np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(self.points, axis=0).T))])

    @property
    def length(self) -> float:
        """Length of the finished line, m."""
        return float(self.distances[-1])

    @property
    def end(self) -> float:
        """Distance of the last vertex along the whole edge, m."""
        return self.start + self.length

    def shift(self, outward: float) -> FloatArray:
        """Return the parallel curve (n, 2), m, ``outward`` metres beyond the finished line; inboard is negative."""
        return self.points + outward * self.normals

    def locate(self, distance: float, outward: float = 0.0) -> FloatArray:
        """Return the point (2,), m, at a distance along the whole edge, on the parallel curve ``outward`` m beyond."""
        return self._interpolate(self.shift(outward), distance)

    def face(self, distance: float) -> FloatArray:
        """Return the outward unit vector (2,) at a distance along the whole edge, m."""
        normal = self._interpolate(self.normals, distance)
        return np.asarray(normal / np.hypot(*normal))

    def turn(self, first: float, last: float) -> float:
        """Return by how much it turns between two distances along the whole edge, rad; cut inward it is below zero."""
        a, b = self.face(first), self.face(last)
        return float(np.arctan2(a[0] * b[1] - a[1] * b[0], a @ b))

    @property
    def turning(self) -> float:
        """By how much it turns from its first to its last vertex, rad."""
        return self.turn(self.start, self.end)

    def _interpolate(self, values: FloatArray, distance: float) -> FloatArray:
        """Return values (n, 2) of the vertices between them (2,)."""
        return np.array([np.interp(distance - self.start, self.distances, column) for column in values.T])

    def measure(self, first: float, last: float, outward: float = 0.0) -> float:
        """Return the length, m, of the parallel curve between two distances along the whole edge.

        Parameters
        ----------
        first, last : float
            Distances along the finished line, m.
        outward : float
            Which parallel curve, m.
        """
        line = self.shift(outward)
        lengths = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
        ends = np.interp(np.array([first, last]) - self.start, self.distances, lengths)
        return float(ends[1] - ends[0])


def draw_straight_edge(name: str, first: FloatArray, last: FloatArray, treatment: Treatment) -> PieceEdge:
    """Return a straight edge from one point to another, without allowance.

    Parameters
    ----------
    name : str
        What it is called.
    first, last : (2,)
        Its ends, m, with the cloth on the left.
    treatment : Treatment
        What is done to it.

    Examples
    --------
    >>> edge = draw_straight_edge("head end", np.array([0.0, 1.0]), np.array([0.0, 0.0]), Treatment.HEM)
    >>> edge.length, edge.normals[0].tolist()
    (1.0, [-1.0, 0.0])
    """
    along = (last - first) / np.hypot(*(last - first))
    normal = np.array([along[1], -along[0]])
    return PieceEdge(name, np.array([first, last]), np.array([normal, normal]) + 0.0, treatment)


def draw_curved_edge(name: str, points: FloatArray, treatment: Treatment, start: float) -> PieceEdge:
    """Return an edge through points, without allowance, its normals from the points beside each.

    Parameters
    ----------
    name : str
        What it is called.
    points : (n, 2)
        Vertices, m, with the cloth on the left; two of a straight edge.
    treatment : Treatment
        What is done to it.
    start : float
        Distance of the first vertex along the whole edge of which this is a part, m.

    Examples
    --------
    >>> edge = draw_curved_edge("far edge", np.array([[0.0, 0.0], [0.0, -1.0]]), Treatment.HEM, 0.5)
    >>> edge.end, edge.normals[0].tolist()
    (1.5, [-1.0, 0.0])
    """
    if len(points) == 2:
        return replace(draw_straight_edge(name, points[0], points[1], treatment), start=start)
    reached = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    along = np.gradient(points, reached, axis=0, edge_order=2)
    normals = np.stack([along[:, 1], -along[:, 0]], -1) / np.hypot(*along.T)[:, None]
    return PieceEdge(name, points, normals, treatment, start=start)
