"""The cloth cut perpendicular to its length, and how steep it is there."""

from math import atan2
from typing import NamedTuple

import numpy as np

from ....hammock.arrays import FloatArray, IntegerArray

WINDOW = 0.05  # m to either side over which a slope is taken


class ClothSlice(NamedTuple):
    """Where a plane cuts the cloth.

    pieces (s, 2, 2): y and z of the ends of each cut through a triangle, m, right end first; triangles (s,): which.
    """

    pieces: FloatArray
    triangles: IntegerArray

    @property
    def line(self) -> FloatArray:
        """Points (k, 2), m, from the right side cord to the left one."""
        corners = np.unique(self.pieces.reshape(-1, 2), axis=0)
        return np.asarray(corners[np.argsort(corners[:, 0], kind="stable")])


def cut_cloth(points: FloatArray, triangles: IntegerArray, x: float) -> ClothSlice:
    """Cut the cloth at a distance along the hammock.

    Parameters
    ----------
    points : (n, 3)
        m.
    triangles : (m, 3)
        Cloth.
    x : float
        Where, m.

    Returns
    -------
    ClothSlice
        From right to left.

    Raises
    ------
    ValueError
        If there is no cloth.

    Examples
    --------
    >>> corners = np.array([[0.0, 0, 0], [1, 0, 0], [0, 1, 2]])
    >>> cut_cloth(corners, np.array([[0, 1, 2]]), 0.5).line.tolist()
    [[0.0, 0.0], [0.5, 1.0]]
    """
    beyond = points[triangles, 0] >= x
    cut = np.flatnonzero(beyond.any(axis=1) & ~beyond.all(axis=1))
    if not len(cut):
        raise ValueError(f"there is no cloth at x = {x} m.")
    corners = points[triangles[cut]]
    alone = np.argmax(
        beyond[cut] == (beyond[cut].sum(axis=1) == 1)[:, None], axis=1
    )  # the one on its side of the plane
    row = np.arange(len(cut))
    tip = corners[row, alone]
    pieces = np.stack([_meet(tip, corners[row, (alone + step) % 3], x) for step in (1, 2)], axis=1)
    order = np.argsort(pieces[:, :, 0], axis=1)
    pieces = np.take_along_axis(pieces, order[:, :, None], axis=1)
    along = np.argsort(pieces[:, 0, 0])
    return ClothSlice(pieces[along], cut[along])


def _meet(a: FloatArray, b: FloatArray, x: float) -> FloatArray:
    """Return y and z (s, 2) where the ways from a to b (s, 3) pass ``x``."""
    share = (x - a[:, 0]) / (b[:, 0] - a[:, 0])
    return np.asarray(a[:, 1:] + share[:, None] * (b[:, 1:] - a[:, 1:]))


def find_slope(section: ClothSlice, y: float) -> float:
    """Return the slope of the cloth at ``y``, from ``WINDOW`` to its right to as much to its left, rad.

    Parameters
    ----------
    section : ClothSlice
        From :func:`cut_cloth`.
    y : float
        m.

    Examples
    --------
    >>> even = ClothSlice(np.array([[[-1.0, 0.0], [1.0, 2.0]]]), np.zeros(1, int))
    >>> float(np.degrees(find_slope(even, 0.0)).round(6))
    45.0
    """
    right, left = find_height(section, y - WINDOW), find_height(section, y + WINDOW)
    return atan2(left - right, 2 * WINDOW)


def find_bend(section: ClothSlice, left: float, right: float) -> float:
    """Return by how much the cloth turns up from ``right`` to ``left``, rad: 0 where it is flat.

    The difference of its slopes at both places, each from :func:`find_slope`.

    Parameters
    ----------
    section : ClothSlice
        From :func:`cut_cloth`.
    left, right : float
        Where, such as at both ends of the shoulders, m.

    Examples
    --------
    >>> trough = ClothSlice(np.array([[[-1.0, 1.0], [0.0, 0.0]], [[0.0, 0.0], [1.0, 1.0]]]), np.arange(2))
    >>> float(np.degrees(find_bend(trough, 0.2, -0.2)).round(6))
    90.0
    """
    return find_slope(section, left) - find_slope(section, right)


def find_height(section: ClothSlice, y: float) -> float:
    """Return the height of the cloth at ``y``, m; beyond a side cord that of the cord."""
    return float(np.interp(y, *section.line.T))
