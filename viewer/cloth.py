"""The cloth in a picture: colours say a value, marks say it a second way."""

from typing import Any

import numpy as np

from ..cases.storage.shape import Shape
from .camera import Camera, project_points
from .hatching import place_marks
from .look import DARK, LIGHT, ColourScheme, paint_cloth

LIFT = 0.02  # m towards the eye, so that a mark is drawn over its own triangle


def draw_cloth(axes: Any, shape: Shape, camera: Camera, look: ColourScheme) -> None:  # noqa: ANN401
    """Draw triangles and marks, the far ones first.

    Parameters
    ----------
    axes : matplotlib Axes
        Where to draw.
    shape : Shape
        Deformed hammock.
    camera : Camera
        From where.
    look : ColourScheme
        What the colours mean.

    Examples
    --------
    >>> from matplotlib.figure import Figure
    >>> from types import SimpleNamespace
    >>> slack = {"points": np.eye(3), "triangles": np.array([[0, 1, 2]]), "state": np.zeros(1, int)}
    >>> cloth = SimpleNamespace(**slack, larger_stress=np.ones(1), direction=np.eye(3)[:1])
    >>> from tautlay.viewer.camera import aim_camera
    >>> from tautlay.viewer.field_list import FIELDS
    >>> draw_cloth(Figure().add_subplot(), cloth, aim_camera(0, 45), ColourScheme(FIELDS[0], 1.0, 1.0, 1.0, {}))
    """
    from matplotlib.collections import PolyCollection

    corners, colours = shape.points[shape.triangles], paint_cloth(shape, look)
    marks = place_marks(shape, look.field, look.end)
    mark_colours = np.where(marks.dark[:, None], DARK, LIGHT)
    faces = np.concatenate([corners[:, [0, 1, 2, 2]], marks.corners])  # a triangle is a four-corner with two alike
    depth = np.concatenate([corners.mean(1) @ camera.eye, marks.corners.mean(1) @ camera.eye + LIFT])
    fill = np.concatenate([colours, mark_colours])
    rim = np.concatenate([colours * [0.88, 0.88, 0.88, 1.0], mark_colours])  # the mesh shows the form
    order = np.argsort(depth)
    flat: Any = project_points(camera, faces)[order]  # an array: drawn sooner than a list
    axes.add_collection(PolyCollection(flat, facecolors=fill[order], edgecolors=rim[order], linewidths=0.25))
