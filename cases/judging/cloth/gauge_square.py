"""Squares of a gauge width on the flat cloth along its threads, and means over each of them.

The cloth is cut into many small pieces, each counted into the cell in which its middle lies; squares are sums of cells,
found by differences of running sums. How pieces and cells lie depends on the flat mesh alone and is kept for the next
result on it.
"""

from functools import lru_cache
from typing import NamedTuple

import numpy as np
from scipy.sparse import csr_array

from ....hammock.arrays import FloatArray, IntegerArray
from .area_points import FlatCloth, scatter_points

GAUGE = 0.025  # m
_CELLS = 10  # across the gauge width, for sums
_WHOLE = 0.75  # of the square that must be cloth
_KEPT = 4  # meshes


class Squares(NamedTuple):
    """Every gauge square that is cloth enough.

    Parameters
    ----------
    middle : (s, 2)
        Where each lies on the flat cloth, m.
    area : (s,)
        Of the cloth in it, m2.
    place : tuple of (s,)
        Of its first cell, along warp and weft.
    overlap : (c, m) sparse
        Area that each triangle has in each cell, m2.
    shape : (int, int)
        Cells along warp and weft.
    """

    middle: FloatArray
    area: FloatArray
    place: tuple[IntegerArray, ...]
    overlap: csr_array
    shape: tuple[int, int]

    def average(self, values: FloatArray) -> FloatArray:
        """Return the mean (s, k) of values (m, k) of the triangles over the cloth in each square."""
        sums = [_add_up(column.reshape(self.shape))[self.place] for column in (self.overlap @ values).T]
        return np.stack(sums, axis=1) / self.area[:, None]


class _Flat:
    """A flat mesh and its threads, alike if their numbers are."""

    def __init__(self, mesh: FlatCloth, turn: FloatArray) -> None:
        self.mesh, self.turn = mesh, turn
        self.content = (mesh.flat_corners().tobytes(), turn.tobytes())

    def __hash__(self) -> int:
        return hash(self.content)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Flat) and self.content == other.content


def lay_squares(mesh: FlatCloth, turn: FloatArray) -> Squares:
    """Return the gauge squares of a flat mesh.

    Parameters
    ----------
    mesh : FlatCloth
        Flat cloth.
    turn : (2, 2)
        Takes flat coordinates, as rows, to those along warp and weft.

    Examples
    --------
    >>> from tautlay.hammock import draw_outline, example_hammock
    >>> from tautlay.meshing import make_mesh
    >>> mesh = make_mesh(draw_outline(example_hammock().body), 0.2)
    >>> squares = lay_squares(mesh, np.eye(2))
    >>> ones = squares.average(np.ones((len(mesh.triangles), 1)))
    >>> bool(np.allclose(ones, 1.0)), bool(squares.area.max() <= GAUGE**2 * 1.1)
    (True, True)
    """
    return _lay(_Flat(mesh, turn))


@lru_cache(maxsize=_KEPT)
def _lay(flat: _Flat) -> Squares:
    """Return the squares of a mesh that is not in the cache."""
    mesh, cell = flat.mesh, GAUGE / _CELLS
    cloud = scatter_points(mesh, cell)
    x, y = cloud.points.T
    threads = np.stack([x * a + y * b for a, b in flat.turn.T])  # a million points: BLAS is slow for twos
    origin = np.floor(threads.min(axis=1) / cell - _CELLS) * cell  # so that both halves are cut alike
    warp, weft = ((threads - origin[:, None]) / cell).astype(np.int64)
    shape = (int(warp.max()) + 2 * _CELLS, int(weft.max()) + 2 * _CELLS)
    index = np.ravel_multi_index((warp, weft), shape)
    size = (shape[0] * shape[1], len(mesh.find_areas()))
    overlap = csr_array((cloud.area, (index, cloud.triangle)), shape=size)
    overlap.sum_duplicates()
    area = _add_up(overlap.sum(axis=1).reshape(shape))
    place = np.nonzero(area >= _WHOLE * GAUGE**2)
    middle = (origin + (np.stack(place, axis=1) + _CELLS / 2) * cell) @ flat.turn.T
    return Squares(middle, area[place], place, overlap, shape)


def _add_up(cells: FloatArray) -> FloatArray:
    """Return the sums over all squares of cells."""
    total = np.pad(cells.cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))
    n = _CELLS
    return np.asarray(total[n:, n:] - total[:-n, n:] - total[n:, :-n] + total[:-n, :-n])
