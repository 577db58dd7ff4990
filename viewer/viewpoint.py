"""From where the standard pictures are seen, and which parts each shows."""

from dataclasses import replace
from math import asin, atan2, degrees
from typing import NamedTuple

import numpy as np

from ..cases.judging.cloth.hot_spot import HotSpot
from ..cases.storage.shape import BARS, SIDE_CORDS, FloatArray, Shape
from .camera import Camera, aim_camera, project_points
from .hatching import find_normals
from .view import Inset, find_far_bark, find_trees

NEAR = 0.35  # m of a line that is drawn where the trees are not
CLOSE = 0.30  # m around a hot spot


class Viewpoint(NamedTuple):
    """A view.

    Parameters
    ----------
    name : str
        Of the file.
    title : str
        In words.
    camera : Camera
        From where.
    shape : Shape
        Only what is shown.
    frame : (n, 2)
        What must be seen, in the plane of the picture, m.
    inset : Inset
        What is kept free for words.
    labels, trees, ghost : bool
        Whether the forces are written, the trees drawn, the unloaded shape shown.
    """

    name: str
    title: str
    camera: Camera
    shape: Shape
    frame: FloatArray
    inset: Inset
    labels: bool = False
    trees: bool = False
    ghost: bool = True


def list_viewpoints(shape: Shape) -> tuple[Viewpoint, ...]:
    """Return the standard views: three-quarter, side, top, foot."""
    slanting = aim_camera(-62, 30) if shape.occupant is None else aim_camera(-60, 40)  # from higher up one sees in
    side, top, foot = aim_camera(-90, 0), aim_camera(-90, 90), aim_camera(0, 0)
    near, body = cut_lines(shape, NEAR), keep_body(shape)
    seen = project_points(side, np.concatenate([shape.points, find_far_bark(shape)]))
    ground = np.stack([seen[:, 0], np.zeros(len(seen))], -1)
    return (
        Viewpoint(
            "view_three_quarter",
            "from the right, above",
            slanting,
            near,
            _frame(near, slanting),
            Inset(0.02, 0.02, 0.17, 0.16),
            labels=True,
        ),
        Viewpoint(
            "view_side",
            "from the right side, head on the left",
            side,
            shape,
            np.concatenate([seen, ground]),
            Inset(0.05, 0.05, 0.08, 0.10),
            trees=True,
        ),
        Viewpoint(
            "view_top", "from above, head on the left", top, near, _frame(near, top), Inset(0.05, 0.05, 0.12, 0.08)
        ),
        Viewpoint(
            "view_foot",
            "body and bars from the foot end",
            foot,
            body,
            _frame(body, foot),
            Inset(0.08, 0.08, 0.12, 0.08),
        ),
    )


def view_spot(shape: Shape, number: int, spot: HotSpot) -> Viewpoint:
    """Return the close-up of a hot spot, perpendicular to the cloth, from the side away from the person."""
    middles = shape.points[shape.triangles].mean(1)
    nearest = int(np.linalg.norm(middles - spot.loaded, axis=1).argmin())
    normal = find_normals(shape)[nearest]
    pressed = shape.occupant is not None and (shape.occupant.pressure > 0.0).any()
    eye = -normal if pressed else normal
    camera = aim_camera(degrees(atan2(eye[1], eye[0])), degrees(asin(np.clip(eye[2], -1.0, 1.0))))
    at = project_points(camera, np.array(spot.loaded))
    side = "below" if eye[2] < 0.0 else "above"
    return Viewpoint(
        f"hot_spot_{number}",
        f"hot spot {number}, perpendicular to the cloth, from {side}",
        camera,
        shape,
        at + CLOSE * np.array([[-1.0, -1.0], [1.0, 1.0]]),
        Inset(0.02, 0.02, 0.02, 0.06),
        ghost=False,
    )


def _frame(shape: Shape, camera: Camera) -> FloatArray:
    """Return what is seen of everything that is drawn, m."""
    used = np.unique(np.concatenate([shape.triangles.ravel(), shape.segments.ravel()]))
    seen = [shape.points[used]]
    if shape.occupant is not None:
        axes, radii = shape.occupant.axes, shape.occupant.radii[..., None]
        seen += [(axes + side * radii * way).reshape(-1, 3) for side in (-1, 1) for way in (camera.right, camera.top)]
    return project_points(camera, np.concatenate(seen))


def cut_lines(shape: Shape, length: float) -> Shape:
    """Return the shape with the tree ends of both lines moved to ``length`` from the apex, if they are further."""
    points = shape.points.copy()
    for tree in find_trees(shape):
        end = int(np.flatnonzero((shape.points == tree).all(1))[0])
        segment = shape.segments[(shape.segments == end).any(1)][0]
        apex = shape.points[segment[segment != end][0]]
        run = tree - apex
        points[end] = apex + run * min(1.0, length / float(np.linalg.norm(run)))
    return replace(shape, points=points)


def keep_body(shape: Shape) -> Shape:
    """Return the shape without legs and lines."""
    kept = np.isin(shape.part, [*SIDE_CORDS, *BARS])
    return replace(shape, segments=shape.segments[kept], part=shape.part[kept], force=shape.force[kept])
