"""Meshes shared by the verification tests, handed out as fixtures."""

from typing import NamedTuple

import numpy as np
import pytest


class Mesh(NamedTuple):
    """Nodes in the plane (n, 2) and triangles (m, 3), counter-clockwise."""

    points: np.ndarray
    triangles: np.ndarray

    @property
    def flat(self):
        """Corners of every triangle lying flat (m, 3, 2)."""
        return self.points[self.triangles]

    @property
    def raised(self):
        """Nodes in space (n, 3), at z = 0."""
        return np.column_stack([self.points, np.zeros(len(self.points))])

    def areas(self):
        """Area of every triangle (m,)."""
        u, v = self.flat[:, 1] - self.flat[:, 0], self.flat[:, 2] - self.flat[:, 0]
        return (u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]) / 2

    def tributary(self):
        """Third of the area of the triangles round each node (n,)."""
        shares = np.zeros(len(self.points))
        np.add.at(shares, self.triangles, (self.areas() / 3)[:, None])
        return shares

    def boundary(self):
        """Which nodes lie on an edge that belongs to one triangle only (n,)."""
        edges = np.sort(self.triangles[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
        found, count = np.unique(edges, axis=0, return_counts=True)
        mask = np.zeros(len(self.points), dtype=bool)
        mask[found[count == 1]] = True
        return mask


def _make_rectangle(xs, ys, diagonals="mirror"):
    """Return a rectangle cut at ``xs`` and ``ys``; node (i, j) is number i * len(ys) + j.

    ``diagonals``: "mirror" turns them about the middle of both sides, "cross" alternates them like a
    chequerboard, "same" keeps one direction.
    """
    nx, ny = len(xs), len(ys)
    points = np.stack(np.meshgrid(xs, ys, indexing="ij"), axis=-1).reshape(-1, 2)
    i, j = (a.ravel() for a in np.meshgrid(np.arange(nx - 1), np.arange(ny - 1), indexing="ij"))
    a, b, c, d = i * ny + j, (i + 1) * ny + j, (i + 1) * ny + j + 1, i * ny + j + 1
    turn = {
        "same": np.zeros(len(a), dtype=bool),
        "cross": (i + j) % 2 == 1,
        "mirror": (2 * i >= nx - 1) != (2 * j >= ny - 1),
    }[diagonals]
    first = np.where(turn[:, None], np.stack([a, b, d], 1), np.stack([a, b, c], 1))
    second = np.where(turn[:, None], np.stack([b, c, d], 1), np.stack([a, c, d], 1))
    return Mesh(points, np.concatenate([first, second]))


def _make_quarter_disc(rings, inner=0.0):
    """Return the quarter x, y >= 0 of a disc of radius 1, evenly cut by rings, with 2k cells on ring k.

    With ``inner`` the disc has a round hole and every ring as many cells as the outermost.
    """
    if inner:
        radii, count = np.linspace(inner, 1.0, rings + 1), 2 * rings
        mesh = _make_rectangle(radii, np.linspace(0, np.pi / 2, count + 1), "cross")
        r, angle = mesh.points.T
        return Mesh(np.column_stack([r * np.cos(angle), r * np.sin(angle)]), mesh.triangles)
    points, triangles, first = [(0.0, 0.0)], [], [0]
    for k in range(1, rings + 1):
        first.append(len(points))
        points += [(k / rings * np.cos(t), k / rings * np.sin(t)) for t in np.linspace(0, np.pi / 2, 2 * k + 1)]
        for half in range(2):  # each half of the quarter is a wedge of k cells
            outer, inside = first[k] + half * k, first[k - 1] + half * (k - 1)
            triangles += [(inside + s, outer + s, outer + s + 1) for s in range(k)]
            triangles += [(inside + s, outer + s + 1, inside + s + 1) for s in range(k - 1)]
    return Mesh(np.array(points), np.array(triangles))


@pytest.fixture(scope="session")
def make_mesh():
    """Mesh from points (n, 2) and triangles (m, 3)."""
    return Mesh


@pytest.fixture(scope="session")
def make_rectangle():
    """Maker of rectangles: (xs, ys, diagonals)."""
    return _make_rectangle


@pytest.fixture(scope="session")
def make_quarter_disc():
    """Maker of quarter discs of radius 1: (rings, inner)."""
    return _make_quarter_disc
