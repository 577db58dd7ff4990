"""Polygons and lines in the plane."""

import numpy as np
from numpy.typing import NDArray

from ..hammock.arrays import FloatArray, IntegerArray

_SAME = 1e-9  # of a length


def find_middle(polygon: FloatArray) -> FloatArray:
    """Return the centroid (2,) of a polygon (n, 2).

    Examples
    --------
    >>> find_middle(np.array([[0.0, 0.0], [2.0, 0.0], [2.0, 1.0], [0.0, 1.0]])).tolist()
    [1.0, 0.5]
    """
    after = np.roll(polygon, -1, axis=0)
    areas = _cross(polygon - polygon[0], after - polygon[0])
    thirds = (polygon + after + polygon[0]) / 3
    return np.asarray((areas[:, None] * thirds).sum(axis=0) / areas.sum())


def rotate(points: FloatArray, angle: float) -> FloatArray:
    """Return points (..., 2) turned to the left by an angle, rad."""
    c, s = np.cos(angle), np.sin(angle)
    return np.asarray(points @ np.array([[c, s], [-s, c]]))


def contains(polygon: FloatArray, points: FloatArray) -> NDArray[np.bool_]:
    """Return whether points (k, 2) lie inside a polygon (n, 2)."""
    (x0, y0), (x1, y1) = polygon.T, np.roll(polygon, -1, axis=0).T
    above = points[:, 1, None] < y0
    rows, sides = np.nonzero(above != np.roll(above, -1, axis=1))  # sides that reach from below a point to above it
    x, y = points[rows].T
    run, rise = (x1 - x0)[sides], (y1 - y0)[sides]
    beyond = x < run * (y - y0[sides]) / rise + x0[sides]
    return np.asarray(np.bincount(rows[beyond], minlength=len(points)) % 2 == 1)


def cross_lines(first: FloatArray, second: FloatArray) -> FloatArray:
    """Return all points (k, 2), m, in which two lines cross, in their order along the first.

    Parameters
    ----------
    first, second : (n, 2), (m, 2)
        Vertices, m.

    Examples
    --------
    >>> cross_lines(np.array([[0.0, 0.0], [2.0, 2.0]]), np.array([[0.0, 2.0], [2.0, 0.0]])).tolist()
    [[1.0, 1.0]]
    """
    return _list_crossings(first, second)[1]


def _list_crossings(first: FloatArray, second: FloatArray) -> tuple[IntegerArray, FloatArray]:
    """Return all crossings in their order along the first line: on which of its pieces (k,), and where (k, 2), m."""
    rows, _, along = _find_hits(first, second)
    order = np.lexsort((along, rows))
    rows, along = rows[order], along[order]
    return rows, first[rows] + along[:, None] * np.diff(first, axis=0)[rows]


def crosses_itself(ring: FloatArray) -> bool:
    """Return whether the pieces of a closed line cross, neighbours left out.

    Parameters
    ----------
    ring : (n, 2)
        Vertices, m, closed by the first.

    Examples
    --------
    >>> bow = np.array([[0.0, 0.0], [2.0, 2.0], [2.0, 0.0], [0.0, 2.0]])
    >>> crosses_itself(bow), crosses_itself(bow[[0, 2, 1, 3]])
    (True, False)
    """
    closed = np.concatenate([ring, ring[:1]])
    rows, columns, _ = _find_hits(closed, closed)
    apart = np.abs(rows - columns)
    return bool((np.minimum(apart, len(ring) - apart) > 1).any())


def _find_hits(first: FloatArray, second: FloatArray) -> tuple[IntegerArray, IntegerArray, FloatArray]:
    """Return which pieces of two lines cross, (k,) each, and at which share of that of the first."""
    rows, columns = _pair_boxes(first, second)
    a, u = first[rows], np.diff(first, axis=0)[rows]
    b, v = second[columns], np.diff(second, axis=0)[columns]
    area = _cross(u, v)
    parallel = np.abs(area) <= _SAME * np.hypot(*np.moveaxis(u, -1, 0)) * np.hypot(*np.moveaxis(v, -1, 0))
    apart = np.where(parallel, np.inf, area)  # they cross nowhere, or all along
    along, other = _cross(b - a, v) / apart, _cross(b - a, u) / apart
    hit = ~parallel & (np.abs(along - 0.5) <= 0.5 + _SAME) & (np.abs(other - 0.5) <= 0.5 + _SAME)
    return rows[hit], columns[hit], along[hit]


def _pair_boxes(first: FloatArray, second: FloatArray) -> tuple[IntegerArray, IntegerArray]:
    """Return the pieces of two lines, (k,) each, whose boxes touch: all that cross, and few others."""
    near = np.True_
    for a, b in zip(first.T, second.T, strict=True):
        pad = 2 * _SAME * (np.ptp(a) + np.ptp(b))
        low, high = np.minimum(a[:-1], a[1:]) - pad, np.maximum(a[:-1], a[1:]) + pad
        near = near & (low[:, None] <= np.maximum(b[:-1], b[1:])) & (high[:, None] >= np.minimum(b[:-1], b[1:]))
    rows, columns = np.nonzero(near)
    return rows, columns


def _cross(u: FloatArray, v: FloatArray) -> FloatArray:
    """Return the areas that pairs of vectors span."""
    return np.asarray(u[..., 0] * v[..., 1] - u[..., 1] * v[..., 0])


def extend_line(line: FloatArray, reach: float) -> FloatArray:
    """Return a line (n, 2) drawn on straight at both ends by ``reach``, m.

    Examples
    --------
    >>> extend_line(np.array([[0.0, 0.0], [1.0, 0.0]]), 0.5).tolist()
    [[-0.5, 0.0], [0.0, 0.0], [1.0, 0.0], [1.5, 0.0]]
    """
    start, end = line[0] - line[1], line[-1] - line[-2]
    first, last = line[0] + reach * start / np.hypot(*start), line[-1] + reach * end / np.hypot(*end)
    return np.concatenate([[first], line, [last]])


def clip_line(line: FloatArray, polygon: FloatArray) -> list[FloatArray]:
    """Return the runs (k, 2), m, of a line that lie inside a polygon.

    Parameters
    ----------
    line : (n, 2)
        Vertices, m.
    polygon : (m, 2)
        Vertices, m, closed by the first.

    Examples
    --------
    >>> square = np.array([[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]])
    >>> [run.tolist() for run in clip_line(np.array([[-1.0, 1.0], [3.0, 1.0]]), square)]
    [[[0.0, 1.0], [2.0, 1.0]]]
    """
    if contains(polygon, line).all():
        return [line]
    closed = np.concatenate([polygon, polygon[:1]])
    rows, points = _list_crossings(line, closed)
    places = np.concatenate([np.arange(len(line)), rows])  # each vertex before what crosses beyond it
    stops = np.concatenate([line, points])[np.argsort(places, kind="stable")]
    kept = contains(polygon, (stops[:-1] + stops[1:]) / 2)
    ends = np.flatnonzero(np.diff(np.concatenate([[False], kept, [False]]).astype(np.int64)))
    return [stops[first : last + 1] for first, last in zip(ends[::2], ends[1::2], strict=True)]
