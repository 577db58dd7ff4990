"""From points to triangles, and from one mesh of a body to another."""

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from .grid import Mesh

_MARGIN = 1e-9  # of the half width: a point this far outside still counts as on the edge


def locate(mesh: Mesh, points: FloatArray) -> tuple[IntegerArray, FloatArray]:
    """Return in which triangle each point lies, and where in it.

    Parameters
    ----------
    mesh : Mesh
        Columns of constant x make the search a look-up.
    points : (p, 2)
        Flat coordinates, m.

    Returns
    -------
    triangle : (p,) int
        Row of ``mesh.triangles``.
    weights : (p, 3)
        Barycentric coordinates: they sum to 1 and reproduce the point.

    Raises
    ------
    ValueError
        For a point outside the mesh.

    Examples
    --------
    >>> from tautlay.hammock import draw_outline, example_hammock
    >>> from tautlay.meshing import make_mesh
    >>> mesh = make_mesh(draw_outline(example_hammock().body), 0.1)
    >>> triangle, weights = locate(mesh, np.array([[0.5, 0.1]]))
    >>> (weights @ mesh.points[mesh.triangles[triangle[0]]]).round(12).tolist()
    [[0.5, 0.1]]
    """
    column, fraction = _find_columns(mesh, points[:, 0])
    rim = mesh.points.reshape(len(mesh.stations), len(mesh.levels), 2)[:, [0, -1], 1]
    low, high = (rim[column] * (1 - fraction)[:, None] + rim[column + 1] * fraction[:, None]).T
    place = (points[:, 1] - low) / (high - low)
    outside = (np.abs(fraction - 0.5) > 0.5 + _MARGIN) | (np.abs(place - 0.5) > 0.5 + _MARGIN)
    if outside.any():
        x, y = points[np.argmax(outside)]
        raise ValueError(f"{outside.sum()} points lie outside the body, the first at x = {x:g} m, y = {y:g} m.")
    level = mesh.levels[0] + place * (mesh.levels[-1] - mesh.levels[0])
    return _choose_triangle(mesh, column, level, points)


def interpolate(coarse: Mesh, values: FloatArray, fine: Mesh) -> FloatArray:
    """Return nodal ``values`` of a coarse mesh at the nodes of a finer one of the same body.

    The cell is found by normalised coordinates, so that a node on an edge is served by the cells along
    that edge; inside it the value is linear in the flat coordinates, which keeps strains: a field linear
    in x and y is exact although two meshes cut a curved edge off differently.

    Parameters
    ----------
    coarse, fine : Mesh
        Of the same outline, both whole or both half.
    values : (n, k)
        At the nodes of ``coarse``.

    Returns
    -------
    (n', k)
        At the nodes of ``fine``.

    Raises
    ------
    ValueError
        For meshes of different bodies.
    """
    if coarse.outline != fine.outline or coarse.levels[0] != fine.levels[0]:
        raise ValueError("values can be carried only between two meshes of the same body, both whole or both half.")
    x = np.repeat(fine.stations, len(fine.levels))
    level = np.tile(fine.levels, len(fine.stations))
    column, _ = _find_columns(coarse, x)
    triangle, weights = _choose_triangle(coarse, column, level, fine.points)
    return np.asarray(np.einsum("pa,pak->pk", weights, values[coarse.triangles[triangle]]))


def stretch_over(coarse: Mesh, values: FloatArray, fine: Mesh) -> FloatArray:
    """Return nodal ``values`` of a mesh at the nodes of one of a similar body, at the same shares of length and width.

    Between the nodes linear along and across; meant for bodies that differ by what cutting and sewing leave uncertain.

    Parameters
    ----------
    coarse, fine : Mesh
        Both whole or both half.
    values : (n, k)
        At the nodes of ``coarse``.

    Returns
    -------
    (n', k)
        At the nodes of ``fine``.

    Raises
    ------
    ValueError
        For a whole and a half mesh.
    """
    if coarse.is_half != fine.is_half:
        raise ValueError("values can be carried only between two meshes that are both whole or both half.")
    grid = values.reshape(len(coarse.stations), len(coarse.levels), -1)
    column, along = _find_columns(coarse, fine.stations * (coarse.stations[-1] / fine.stations[-1]))
    row = np.clip(np.searchsorted(coarse.levels, fine.levels, side="right") - 1, 0, len(coarse.levels) - 2)
    across = (fine.levels - coarse.levels[row]) / (coarse.levels[row + 1] - coarse.levels[row])
    lines = grid[column] + along[:, None, None] * (grid[column + 1] - grid[column])
    found = lines[:, row] + across[:, None] * (lines[:, row + 1] - lines[:, row])
    return np.asarray(found.reshape(-1, values.shape[1]))


def _find_columns(mesh: Mesh, x: FloatArray) -> tuple[IntegerArray, FloatArray]:
    """Return the column of cells and the fraction across it."""
    last = len(mesh.stations) - 2
    column = np.clip(np.searchsorted(mesh.stations, x, side="right") - 1, 0, last)
    start = mesh.stations[column]
    return column, (x - start) / (mesh.stations[column + 1] - start)


def _choose_triangle(
    mesh: Mesh, column: IntegerArray, level: FloatArray, points: FloatArray
) -> tuple[IntegerArray, FloatArray]:
    """Return which of the two triangles of its cell serves each point, and the weights in it."""
    rows = len(mesh.levels) - 1
    row = np.clip(np.searchsorted(mesh.levels, level, side="right") - 1, 0, rows - 1)
    triangle = 2 * (column * rows + row)
    first, second = _find_weights(mesh, triangle, points), _find_weights(mesh, triangle + 1, points)
    better = second.min(axis=1) > first.min(axis=1)
    return triangle + better, np.where(better[:, None], second, first)


def _find_weights(mesh: Mesh, triangle: IntegerArray, points: FloatArray) -> FloatArray:
    """Return barycentric coordinates (p, 3), negative beyond a side."""
    a, b, c = np.moveaxis(mesh.points[mesh.triangles[triangle]], 1, 0)
    u, v, w = b - a, c - a, points - a
    double = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
    second = (w[:, 0] * v[:, 1] - w[:, 1] * v[:, 0]) / double
    third = (u[:, 0] * w[:, 1] - u[:, 1] * w[:, 0]) / double
    return np.stack([1 - second - third, second, third], axis=1)
