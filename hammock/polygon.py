"""Polygons and lines in the plane."""

import numpy as np

from .arrays import FloatArray, IntegerArray


def measure_area(polygon: FloatArray) -> float:
    """Return the area of a polygon (n, 2), m2; below zero if it runs clockwise.

    Examples
    --------
    >>> measure_area(np.array([[0.0, 0.0], [2.0, 0.0], [2.0, 1.0]]))
    1.0
    """
    x, y = (polygon - polygon[0]).T
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2


def measure_triangles(corners: FloatArray) -> FloatArray:
    """Return the areas (m,) of triangles with corners (m, 3, 2), m2; below zero where they run clockwise.

    Examples
    --------
    >>> measure_triangles(np.array([[[0.0, 0.0], [2.0, 0.0], [2.0, 1.0]]])).tolist()
    [1.0]
    """
    sides = np.diff(corners, axis=1)
    return np.asarray(sides[:, 0, 0] * sides[:, 1, 1] - sides[:, 0, 1] * sides[:, 1, 0]) / 2


def choose_vertices(line: FloatArray, within: float) -> IntegerArray:
    """Return the numbers (k,) of the vertices that a line keeps so that it stays near all of them.

    Its ends are kept, and its middle one, from which halves that mirror each other are treated alike.

    Parameters
    ----------
    line : (n, 2)
        Vertices, m.
    within : float
        How far it may leave a vertex, m.

    Notes
    -----
    The vertex farthest from a chord is kept and parts it, until none is too far: D. H. Douglas and T. K. Peucker,
    Cartographica 10 (1973) 112-122, from memory.

    Examples
    --------
    >>> line = np.array([[0.0, 0.0], [1.0, 0.1], [2.0, 0.0], [3.0, 0.0], [4.0, 0.0]])
    >>> choose_vertices(line, 0.05).tolist(), choose_vertices(line, 0.5).tolist()
    ([0, 1, 2, 4], [0, 2, 4])
    """
    middle = len(line) // 2
    halves = _part_chords(line[middle:], within), _part_chords(line[middle::-1], within)
    return np.unique(np.concatenate([middle + halves[0], middle - halves[1]]))


def _part_chords(line: FloatArray, within: float) -> IntegerArray:
    """Return the numbers of the vertices that are kept, the first and the last among them, in no order."""
    kept, spans = [0, len(line) - 1], [(0, len(line) - 1)]
    while spans:
        first, last = spans.pop()
        if last - first < 2:
            continue
        way, to = line[last] - line[first], line[first + 1 : last] - line[first]
        off = np.abs(way[0] * to[:, 1] - way[1] * to[:, 0]) / np.hypot(*way)
        if off.max() > within:
            kept.append(first + 1 + int(off.argmax()))
            spans += [(first, kept[-1]), (kept[-1], last)]
    return np.array(kept)
