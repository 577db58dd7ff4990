"""The skin of a person as one closed surface, so that it can be seen through."""

from typing import Any

import numpy as np

from ..cases.storage.shape import FloatArray, Shape
from .hatching import find_normals
from .mannequin import Balls, shape_mannequin

GRAIN = 0.012  # m, side of the cubes in which the skin is looked for
_CLEAR, _DEEPEST = 0.004, 0.06  # m above the cloth, and how far through it flesh may be
_FAR = -0.02  # m outside the skin: no farther is it measured


def make_skin(shape: Shape) -> Any:  # noqa: ANN401  (pyvista has no types)
    """Return the skin of the person of a shape, flattened where it presses on the cloth; None if there is nobody.

    Parameters
    ----------
    shape : Shape
        Deformed hammock.

    Returns
    -------
    pyvista PolyData or None
        Triangles with normals, m.
    """
    import pyvista

    if shape.occupant is None:
        return None
    low, depth = measure_depth(shape_mannequin(shape.occupant))
    grid = pyvista.ImageData(dimensions=depth.shape, spacing=(GRAIN,) * 3, origin=low)
    skin = grid.contour([0.0], scalars=depth.ravel(order="F"))
    skin.clear_data()
    smooth = flatten_skin(skin.smooth_taubin(n_iter=10, pass_band=0.1), shape)
    return smooth.compute_normals(auto_orient_normals=True, split_vertices=False)


def flatten_skin(skin: Any, shape: Shape) -> Any:  # noqa: ANN401
    """Return the skin without the little that goes through the cloth, which in truth presses it flat.

    Parameters
    ----------
    skin : pyvista PolyData
        Closed surface.
    shape : Shape
        Whose cloth.

    Returns
    -------
    pyvista PolyData
        No point is nearer to the upper face of the cloth than 4 mm, or farther than 6 cm below it.
    """
    import pyvista

    cloth = pyvista.PolyData.from_regular_faces(shape.points, shape.triangles)
    cells, nearest = cloth.find_closest_cell(skin.points, return_closest_point=True)
    normal = find_normals(shape)[cells]
    away = np.asarray(skin.points - nearest)
    height = np.einsum("ij,ij->i", away, normal)
    pressed = (height < _CLEAR) & (np.linalg.norm(away, axis=1) < _DEEPEST)
    flat = skin.copy()
    flat.points = skin.points + np.where(pressed, _CLEAR - height, 0.0)[:, None] * normal
    return flat


def measure_depth(balls: Balls) -> tuple[FloatArray, FloatArray]:
    """Return how deep under the skin of a crowd of balls each point of a grid lies.

    Parameters
    ----------
    balls : Balls
        Middles and radii.

    Returns
    -------
    low : (3,)
        First point of the grid, m.
    depth : (i, j, k)
        m, negative outside; nowhere below -2 cm.
    """
    reach = balls.radius[:, None] - _FAR
    low = (balls.middle - reach).min(axis=0) - GRAIN
    size = np.ceil(((balls.middle + reach).max(axis=0) - low) / GRAIN).astype(int) + 2
    depth = np.full(size, _FAR)
    first = np.floor((balls.middle - reach - low) / GRAIN).astype(int)
    last = np.ceil((balls.middle + reach - low) / GRAIN).astype(int) + 1
    for middle, radius, start, end in zip(balls.middle - low, balls.radius, first, last, strict=True):
        away = [(np.arange(a, b) * GRAIN - m) ** 2 for a, b, m in zip(start, end, middle, strict=True)]
        distance = np.sqrt(away[0][:, None, None] + away[1][:, None] + away[2])
        box = depth[tuple(slice(a, b) for a, b in zip(start, end, strict=True))]
        np.maximum(box, radius - distance, out=box)
    return low, depth
