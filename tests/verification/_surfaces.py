"""Surfaces in space that more than one verification test works on."""

import numpy as np


def lay_flat(points, triangles):
    """Lay every triangle of a surface in space flat by itself, its first edge along axis 1: (m, 3, 2)."""
    a, b, c = np.moveaxis(points[triangles], 1, 0)
    length = np.linalg.norm(b - a, axis=1)
    along = ((c - a) * (b - a)).sum(axis=1) / length
    height = np.linalg.norm(np.cross(b - a, c - a), axis=1) / length
    flat = np.zeros((len(triangles), 3, 2))
    flat[:, 1, 0], flat[:, 2, 0], flat[:, 2, 1] = length, along, height
    return flat


def make_octant(cells):
    """Triangles on the part x, y, z >= 0 of the unit sphere, outward."""
    number = {}
    points = []
    for i in range(cells + 1):
        for j in range(cells + 1 - i):
            number[i, j] = len(points)
            points.append((i, j, cells - i - j))
    up = [(number[i, j], number[i + 1, j], number[i, j + 1]) for i, j in number if i + j < cells]
    down = [(number[i + 1, j], number[i + 1, j + 1], number[i, j + 1]) for i, j in number if i + j < cells - 1]
    points = np.array(points, dtype=float)
    return points / np.linalg.norm(points, axis=1, keepdims=True), np.array(up + down)
