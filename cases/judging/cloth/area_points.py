"""The flat cloth as many small pieces, each a point with an area, for sums over parts of it."""

from typing import NamedTuple, Protocol

import numpy as np

from ....hammock.arrays import FloatArray, IntegerArray


class FlatCloth(Protocol):
    """Triangles of cloth as cut: the mesh of the body, or of what lies beyond a bar."""

    def flat_corners(self) -> FloatArray:
        """Return the flat corners of the triangles (m, 3, 2), m."""

    def find_areas(self) -> FloatArray:
        """Return the flat areas of the triangles (m,), m2."""


class AreaPoints(NamedTuple):
    """Pieces of the flat cloth.

    Parameters
    ----------
    points : (p, 2)
        Their middles, m.
    area : (p,)
        m2.
    triangle : (p,)
        Whose pieces they are.
    """

    points: FloatArray
    area: FloatArray
    triangle: IntegerArray


def scatter_points(mesh: FlatCloth, spacing: float) -> AreaPoints:
    """Cut every triangle into like triangles with sides of at most ``spacing``.

    Parameters
    ----------
    mesh : FlatCloth
        Flat cloth.
    spacing : float
        m.

    Returns
    -------
    AreaPoints
        Whose areas add up to that of the cloth.

    Examples
    --------
    >>> from tautlay.hammock import draw_outline, example_hammock
    >>> from tautlay.meshing import make_mesh
    >>> mesh = make_mesh(draw_outline(example_hammock().body), 0.2)
    >>> cloud = scatter_points(mesh, 0.02)
    >>> bool(abs(cloud.area.sum() - mesh.find_areas().sum()) < 1e-12)
    True
    """
    corners, areas = mesh.flat_corners(), mesh.find_areas()
    longest = np.linalg.norm(corners - np.roll(corners, 1, axis=1), axis=2).max(axis=1)
    parts = np.maximum(np.ceil(longest / spacing).astype(np.int64), 1)
    pieces = []
    for count in np.unique(parts):
        chosen = np.flatnonzero(parts == count)
        inside = _divide(int(count))
        points = np.stack([_blend(inside, ends) for ends in corners[chosen].T])
        area = np.repeat(areas[chosen] / len(inside), len(inside))
        pieces.append((points, area, np.repeat(chosen, len(inside))))
    points, *others = (np.concatenate(column, axis=-1) for column in zip(*pieces, strict=True))
    return AreaPoints(points.T, *others)


def _blend(shares: FloatArray, ends: FloatArray) -> FloatArray:
    """Return values (m * p,) between those of the corners (3, m), for shares (p, 3); einsum is slow for threes."""
    first, second, third = ends[:, :, None]
    return np.ravel(first * shares[:, 0] + second * shares[:, 1] + third * shares[:, 2])


def _divide(count: int) -> FloatArray:
    """Return the barycentric middles (count^2, 3) of the pieces of a triangle with ``count`` pieces a side."""
    i, j = np.meshgrid(np.arange(count), np.arange(count), indexing="ij")
    upright, turned = i + j < count, i + j < count - 1
    first = np.concatenate([i[upright] + 1 / 3, i[turned] + 2 / 3]) / count
    second = np.concatenate([j[upright] + 1 / 3, j[turned] + 2 / 3]) / count
    return np.column_stack([1 - first - second, first, second])
