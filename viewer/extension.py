"""Cloth that runs on beyond a bar which is set in."""

from typing import Any

import numpy as np

from ..cases.storage.shape import BARS, EXTENSIONS, FloatArray, IntegerArray, Shape
from .camera import Camera, project_points

EXTENSION_COLOUR = "#d9c9ae"
_SAME = 1e-9  # m


def draw_extensions(axes: Any, shape: Shape, camera: Camera) -> None:  # noqa: ANN401
    """Draw the cloth beyond each bar that is set in.

    Parameters
    ----------
    axes : matplotlib Axes
        Where to draw.
    shape : Shape
        Deformed hammock.
    camera : Camera
        From where.
    """
    from matplotlib.collections import PolyCollection

    corners = list(project_points(camera, find_extensions(shape)))
    if corners:
        axes.add_collection(
            PolyCollection(corners, facecolors=EXTENSION_COLOUR, edgecolors=EXTENSION_COLOUR, linewidths=0.5, zorder=2)
        )


def find_extensions(shape: Shape) -> FloatArray:
    """Return the corners (e, 4, 3), m, of strips of the cloth beyond each bar that is set in: bar side, then free edge.

    Straight from the loaded cloth under the bar towards the apex, as the cone that the pattern lays flat.

    Parameters
    ----------
    shape : Shape
        Deformed hammock.

    Returns
    -------
    (e, 4, 3)
        Head first, from the left; a strip for each triangle's side at the end of the body, none without extensions.
    """
    ends = (tuple(shape.segments[shape.part == part] for part in parts) for parts in zip(BARS, EXTENSIONS, strict=True))
    strips = [_rule_cone(shape, bar[0], free[0]) for bar, free in ends if len(bar) and len(free)]
    return np.concatenate([np.empty((0, 4, 3)), *strips])


def _rule_cone(shape: Shape, bar: IntegerArray, free: IntegerArray) -> FloatArray:
    """Return the strips (e, 4, 3) between the end of the body at a bar and the free edge, which is that end scaled."""
    cloth = np.unique(shape.triangles)
    end = cloth[np.abs(shape.flat[cloth, 0] - shape.flat[bar[0], 0]) < _SAME]
    near = shape.points[end[np.argsort(-shape.flat[end, 1])]]
    (left, right), (first, last) = shape.points[bar], shape.points[free]
    scale = np.linalg.norm(last - first) / np.linalg.norm(right - left)
    far = first + scale * (near - left)
    return np.stack([near[:-1], near[1:], far[1:], far[:-1]], axis=1)
