"""Graded mesh of the flat body: columns of constant x, each divided alike from edge to edge.

A node is named by its column i (0 at the head bar) and its level j (0 at the right edge); it lies at
``x = stations[i]`` and ``y = middle(x) + levels[j] * width(x) / 2`` with levels from -1 to 1 (from 0 in
the left half of a symmetric body). Diagonals run from every corner towards the middle of the body: each
corner node has two triangles and no triangle has two sides on the rim.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from ..hammock.outline import Outline
from ..hammock.polygon import measure_triangles
from ..materials import make_sentence
from ..materials.short_repr import write_repr, write_value
from .grading import RATIO, grade_between, grade_line

_RIM = 3.0  # times finer at channels and bars than in the field
_STEEP = 1.5  # ratio of neighbouring cells on the way to a finer rim than that
_MERGED = 0.05  # of a cell: two lines across the cloth that are closer become one
_CROWDED = 0.5  # of a cell: a line of the mesh closer to one that must be there is left out
_LEEWAY = 0.006  # by which a limit is shown tighter than applied: more than rounding to three digits, in any unit
MOST_TRIANGLES = 100_000  # minutes of work; forces have long settled


class Fineness(NamedTuple):
    """How fine a mesh is.

    Parameters
    ----------
    size : float
        Edge length in the field, m.
    rim : float or None
        Cells along channels and bars and where locks end, m; None is a third of ``size``, and never more than that.
    """

    size: float
    rim: float | None = None

    def find_rim(self) -> tuple[float, float]:
        """Return the size of cells along the rim, m, and the ratio in which they grow towards the field."""
        standard = self.size / _RIM
        return (standard, RATIO) if self.rim is None or self.rim >= standard else (self.rim, _STEEP)


@dataclass(frozen=True)
class Mesh:
    """Triangles on the flat body.

    Parameters
    ----------
    outline : Outline
        What is meshed.
    stations : (nx + 1,)
        x of the columns, m.
    levels : (ny + 1,)
        Place across, -1 right edge to 1 left edge.
    points : (n, 2)
        Flat coordinates of the nodes, m, column by column.
    triangles : (2 nx ny, 3)
        Nodes, counter-clockwise seen from above; cell by cell, two each.
    """

    outline: Outline
    stations: FloatArray
    levels: FloatArray
    points: FloatArray
    triangles: IntegerArray

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{len(self.triangles)} triangles",
            f"{len(self.points)} nodes",
            f"body {write_value(self.outline.length, 'length')} long",
        )

    @property
    def is_half(self) -> bool:
        """Whether it is only the left half."""
        return bool(self.levels[0] == 0.0)

    def column(self, index: int) -> IntegerArray:
        """Return the nodes (ny + 1,) of one column, right to left; -1 is the foot edge."""
        return np.asarray(self.numbers()[index])

    def level(self, index: int) -> IntegerArray:
        """Return the nodes (nx + 1,) of one level, head to foot; -1 is the left edge."""
        return np.asarray(self.numbers()[:, index])

    def numbers(self) -> IntegerArray:
        """Return all node numbers as (nx + 1, ny + 1)."""
        return np.arange(len(self.points)).reshape(len(self.stations), len(self.levels))

    def flat_corners(self) -> FloatArray:
        """Return the flat corners of the triangles (m, 3, 2), m."""
        return self.points[self.triangles]

    def find_areas(self) -> FloatArray:
        """Return the flat areas of the triangles (m,), m2, positive."""
        return measure_triangles(self.flat_corners())


def make_mesh(
    outline: Outline,
    size: float | Fineness,
    *,
    lock_length: float = 0.0,
    half: bool = False,
    across: tuple[float, ...] = (),
) -> Mesh:
    """Return a graded mesh of ``outline``.

    Parameters
    ----------
    outline : Outline
        Flat body.
    size : float or Fineness
        Edge length in the field, m; a third of it along channels and bars by default.
    lock_length : float
        Where above zero, a column stands this far along the edges from either bar, m. Where left and
        right edges are cut differently it stands between the two places.
    half : bool
        Only the left half, for a body symmetric about its middle.
    across : tuple of float
        Levels, 0 to 1, at which a line of nodes must run on either side of the middle.

    Returns
    -------
    Mesh
        Symmetric to round-off wherever the outline is.

    Raises
    ------
    ValueError
        For a size too coarse for the body (2 cells along and across at the waist) or too fine
        (``MOST_TRIANGLES``).

    Examples
    --------
    >>> from tautlay.hammock import draw_outline, example_hammock
    >>> mesh = make_mesh(draw_outline(example_hammock().body), 0.1)
    >>> mesh.triangles.shape, float(mesh.find_areas().sum().round(2))
    ((672, 3), 1.77)
    """
    fineness = size if isinstance(size, Fineness) else Fineness(size)
    _check_size(outline, fineness, lock_length)
    stations, levels = _divide(outline, fineness, lock_length)
    levels = put_levels((levels - levels[::-1]) / 2, across)  # exactly antisymmetric
    if half:
        levels = levels[len(levels) // 2 :]
    points = np.empty((len(stations), len(levels), 2))
    points[:, :, 0] = stations[:, None]
    half_width, middle = outline.width(stations) / 2, outline.middle(stations)
    points[:, :, 1] = middle[:, None] + half_width[:, None] * levels
    return Mesh(outline, stations, levels, points.reshape(-1, 2), _join_triangles(stations, levels))


def put_levels(levels: FloatArray, across: tuple[float, ...]) -> FloatArray:
    """Return antisymmetric levels with those of ``across`` among them, others too close to them left out.

    Parameters
    ----------
    levels : (k,)
        Antisymmetric, -1 to 1.
    across : tuple of float
        0 to 1; those nearer to each other, to the middle or to the edge than a twentieth of a cell become one.

    Examples
    --------
    >>> put_levels(np.linspace(-1.0, 1.0, 5), (0.45,)).tolist()
    [-1.0, -0.45, 0.0, 0.45, 1.0]
    """
    kept = [0.0, 1.0]
    positive = levels[len(levels) // 2 :]
    cells = np.diff(positive)
    for level in sorted(across):
        cell = cells[min(int(np.searchsorted(positive, level, side="right")) - 1, len(cells) - 1)]
        if min(abs(level - other) for other in kept) > _MERGED * cell:
            kept.append(level)
    if len(kept) == 2:
        return levels
    near = np.abs(positive[1:-1, None] - np.array(kept[2:])).min(axis=1) < _CROWDED * np.minimum(cells[1:], cells[:-1])
    half = np.sort(np.concatenate([positive[1:-1][~near], kept[1:]]))
    return np.concatenate([-half[::-1], [0.0], half])


def _divide(outline: Outline, fineness: Fineness, lock_length: float) -> tuple[FloatArray, FloatArray]:
    """Return stations along, m, and levels across, -1 to 1, of the whole body."""
    mean_width, (rim, ratio) = outline.area / outline.length, fineness.find_rim()
    stations = grade_between(_find_breaks(outline, lock_length), rim, fineness.size, ratio)
    return stations, grade_line(mean_width, rim, fineness.size, ratio) * (2 / mean_width) - 1


def find_size_limits(outline: Outline, lock_length: float = 0.0, rim: float | None = None) -> tuple[float, float]:
    """Return the finest and the coarsest mesh size of a body, m, with cells of ``rim``, m, along channels and bars."""
    low, high = outline.length / 2000, min(outline.length, outline.waist[1]) / 2
    fine, coarse = low, high
    while coarse - fine > 1e-5:
        size = (fine + coarse) / 2
        stations, levels = _divide(outline, Fineness(size, rim), lock_length)
        if 2 * (len(stations) - 1) * (len(levels) - 1) > MOST_TRIANGLES:
            fine = size
        else:
            coarse = size
    return float(coarse), float(high)


def _check_size(outline: Outline, fineness: Fineness, lock_length: float) -> None:
    """Raise for a size that gives no useful mesh; the limits in the message are themselves accepted."""
    size, (low, high) = fineness.size, find_size_limits(outline, lock_length, fineness.rim)
    if not low <= size <= high:
        reason = f": a finer mesh has more than {MOST_TRIANGLES:,} triangles" if 0 < size < low else ""
        raise ValueError(
            make_sentence(
                "mesh size must be between {low:length} and {high:length} for this body, {length:length.4} long and "
                "{waist:length.4} wide at its narrowest, got {size}{reason}.",
                low=low * (1 + _LEEWAY),
                high=high * (1 - _LEEWAY),
                length=outline.length,
                waist=outline.waist[1],
                size=make_sentence("{size:length}", size=size) if np.isfinite(size) else size,
                reason=reason,
            )
        )


def _find_breaks(outline: Outline, lock_length: float) -> FloatArray:
    """Return the x, m, at which a column must stand."""
    ends = [0.0, outline.length]
    if lock_length == 0.0:
        return np.array(ends)
    edges = (outline.left, outline.right)
    head = sum(edge.find_station(lock_length) for edge in edges) / 2
    foot = sum(edge.find_station(edge.length - lock_length) for edge in edges) / 2
    if np.isclose(head, outline.length - foot, rtol=0, atol=1e-12):
        foot = outline.length - head
    return np.array(sorted({*ends, head, foot}))


def _leans_back(stations: FloatArray, levels: FloatArray) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
    """Return for each cell (nx, ny) whether its diagonal falls from right-foot to left-head."""
    towards_head = (stations[:-1] + stations[1:]) / 2 > stations[-1] / 2
    towards_right = (levels[:-1] + levels[1:]) / 2 > 0
    return np.asarray(towards_head[:, None] ^ towards_right)


def _join_triangles(stations: FloatArray, levels: FloatArray) -> IntegerArray:
    """Return the triangles (m, 3)."""
    numbers = np.arange(len(stations) * len(levels)).reshape(len(stations), len(levels))
    a, b = numbers[:-1, :-1], numbers[1:, :-1]  # right side: head, foot
    d, c = numbers[:-1, 1:], numbers[1:, 1:]  # left side: head, foot
    back = _leans_back(stations, levels)
    first = np.stack([a, b, np.where(back, d, c)], axis=-1)
    second = np.stack([np.where(back, b, a), c, d], axis=-1)
    return np.stack([first, second], axis=2).reshape(-1, 3)
