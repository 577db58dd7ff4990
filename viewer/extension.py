"""Cloth that runs on beyond a bar which is set in."""

from typing import Any

import numpy as np

from ..cases.storage.shape import BARS, EXTENSIONS, FloatArray, Shape
from .camera import Camera, project_points

EXTENSION_COLOUR = "#d9c9ae"


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
            PolyCollection(corners, facecolors=EXTENSION_COLOUR, edgecolors="0.45", linewidths=0.5, zorder=2)
        )


def find_extensions(shape: Shape) -> FloatArray:
    """Return the corners (e, 4, 3), m, of the cloth beyond each bar that is set in: bar, then free edge.

    Parameters
    ----------
    shape : Shape
        Deformed hammock.

    Returns
    -------
    (e, 4, 3)
        Head first; e is 0, 1 or 2.
    """
    pairs = [
        np.concatenate([bar[0], free[0, ::-1]])
        for bar, free in (
            (shape.segments[shape.part == bar], shape.segments[shape.part == edge])
            for bar, edge in zip(BARS, EXTENSIONS, strict=True)
        )
        if len(bar) and len(free)
    ]
    return shape.points[np.array(pairs, dtype=np.int64).reshape(-1, 4)]
