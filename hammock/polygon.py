"""Polygons in the plane."""

import numpy as np

from .arrays import FloatArray


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
