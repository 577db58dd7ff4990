"""The cloth in a picture: colour says the larger line stress, marks say wrinkled or slack."""

from math import floor, log10
from typing import Any

import numpy as np

from ..cases.shape import Floats, Shape
from .camera import Camera, project_points

COLOUR_MAP = "viridis"  # perceptually uniform, and readable in grey
SLACK_COLOUR = (0.87, 0.87, 0.87, 1.0)
DARK, LIGHT = (0.1, 0.1, 0.1, 1.0), (1.0, 1.0, 1.0, 1.0)
WRINKLED, SLACK = 1, 0  # Shape.state
MARK_CELL = 0.065  # m, one mark in each cube of this size
STROKE, WIDTH, DIAMOND = 0.022, 0.0022, 0.006  # m, half sizes of marks
LIFT = 0.02  # m towards the eye, so that a mark is drawn over its own triangle


def scale_stress(shape: Shape) -> tuple[float, float]:
    """Return the line stress at the top of the colour scale and the largest one, N/m.

    The scale ends at the first of 1, 2, 5, 10, 20, 50 ... N/m with 99 % of the area below, since single triangles
    at corners stand out, and so that pictures of like designs have one scale.

    Parameters
    ----------
    shape : Shape
        Deformed hammock.

    Returns
    -------
    tuple of float
        End of the scale (1 N/m at least) and maximum, N/m.

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> cloth = SimpleNamespace(points=np.eye(3), triangles=np.array([[0, 1, 2]]), larger_stress=np.array([80.0]))
    >>> scale_stress(cloth)
    (100.0, 80.0)
    """
    edges = np.diff(shape.points[shape.triangles], axis=1)
    area = np.linalg.norm(np.cross(edges[:, 0], edges[:, 1]), axis=1)
    order = np.argsort(shape.larger_stress)
    below = np.cumsum(area[order]) / area.sum()
    end = shape.larger_stress[order][min(int(np.searchsorted(below, 0.99)), len(order) - 1)]
    decade = 10.0 ** floor(log10(max(float(end), 1.0)))
    rounded = next(step * decade for step in (1.0, 2.0, 5.0, 10.0) if step * decade >= end)
    return rounded, float(shape.larger_stress.max())


def draw_cloth(axes: Any, shape: Shape, camera: Camera, stress_end: float) -> None:  # noqa: ANN401
    """Draw triangles and marks, the far ones first.

    Parameters
    ----------
    axes : matplotlib Axes
        Where to draw.
    shape : Shape
        Deformed hammock.
    camera : Camera
        From where.
    stress_end : float
        Line stress at the top of the colour scale, N/m.

    Examples
    --------
    >>> from matplotlib.figure import Figure
    >>> one = np.ones(1)
    >>> corners = np.array([[0, 1, 2]])
    >>> cloth = Shape(np.eye(3), np.eye(3, 2), corners, one, one, np.eye(3)[:1], one.astype(int), *[one] * 5)
    >>> from tautlay.viewer.camera import aim_camera
    >>> draw_cloth(Figure().add_subplot(), cloth, aim_camera(0, 45), 1.0)
    """
    from matplotlib import colormaps
    from matplotlib.collections import PolyCollection

    corners = shape.points[shape.triangles]
    share = np.clip(shape.larger_stress / stress_end, 0.0, 1.0)
    colours = np.where((shape.state == SLACK)[:, None], SLACK_COLOUR, colormaps[COLOUR_MAP](share))
    marks, mark_colours = _place_marks(shape, corners, share)
    faces = np.concatenate([corners[:, [0, 1, 2, 2]], marks])  # a triangle is a four-corner with two alike
    depth = np.concatenate([corners.mean(1) @ camera.eye, marks.mean(1) @ camera.eye + LIFT])
    fill = np.concatenate([colours, mark_colours])
    rim = np.concatenate([colours * [0.88, 0.88, 0.88, 1.0], mark_colours])  # the mesh shows the form
    order = np.argsort(depth)
    flat = project_points(camera, faces)[order]
    axes.add_collection(PolyCollection(list(flat), facecolors=fill[order], edgecolors=rim[order], linewidths=0.25))


def _place_marks(shape: Shape, corners: Floats, share: Floats) -> tuple[Floats, Floats]:
    """Return four-cornered marks in space (q, 4, 3) and their colours (q, 4).

    A stroke along the wrinkles where the cloth is wrinkled, a diamond where it is slack.
    """
    middle = corners.mean(1)
    _, chosen = np.unique(np.floor(middle / MARK_CELL).astype(int), axis=0, return_index=True)
    chosen = chosen[shape.state[chosen] <= WRINKLED]
    edges = np.diff(corners[chosen], axis=1)
    normal = np.cross(edges[:, 0], edges[:, 1])
    slack = (shape.state[chosen] == SLACK)[:, None]
    along = np.where(slack, edges[:, 0], shape.direction[chosen])
    across = np.cross(normal, along)
    along = np.where(slack, DIAMOND, STROKE) * _normalise(along)
    across = np.where(slack, DIAMOND, WIDTH) * _normalise(across)
    at = middle[chosen]
    quads = np.stack([at + along, at + across, at - along, at - across], 1)
    dark = (slack[:, 0] | (share[chosen] > 0.6))[:, None]
    return quads, np.where(dark, DARK, LIGHT)


def _normalise(vectors: Floats) -> Floats:
    """Return unit vectors (q, 3)."""
    return np.asarray(vectors / np.maximum(np.linalg.norm(vectors, axis=1, keepdims=True), 1e-300))
