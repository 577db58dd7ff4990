"""The person in a picture: a shaded mannequin, paler where cloth hangs before it."""

import itertools
from typing import Any

import numpy as np

from ..cases.storage.shape import FloatArray, IntegerArray, Shape
from .camera import Camera
from .mannequin import Balls, shape_mannequin
from .raster import NOTHING, Raster, frame_balls, look_at_balls, look_at_cloth, measure_cover

FLESH_COLOUR, FLESH_DARK, FLESH_RIM = (0.96, 0.86, 0.74), (0.42, 0.31, 0.25), (0.16, 0.11, 0.09)
SEEN, HIDDEN = 0.88, 0.34  # opacity before and behind the cloth
RIM = 2.2  # opacity of rims behind the cloth over that of flesh
_SQUARES = 2  # to a dot of the sheet, each way
_STEP = 0.018  # m of depth between neighbouring squares at which there is a rim
# Flesh goes into the cloth by up to a centimetre or so where it is pressed, which in truth flattens it: what lies this
# far beyond the cloth counts as behind it, m.
_PRESSED = 0.025
_FINEST = 0.0008  # m, squares of the person: finer ones show nothing more in a close-up
_GRAIN = 0.005  # m, squares of an outline
_LIGHT = (-0.55, 0.5, 0.67)  # from where the light comes: right, top, eye of the picture


def draw_person(axes: Any, shape: Shape, camera: Camera, dots: int, hidden: float = HIDDEN) -> None:  # noqa: ANN401
    """Draw the person of a shape, if there is one, over what is drawn already.

    Parameters
    ----------
    axes : matplotlib Axes
        Where to draw; limits are set.
    shape : Shape
        Deformed hammock.
    camera : Camera
        From where.
    dots : int
        Of the sheet, per inch.
    hidden : float
        Opacity of flesh behind the cloth; 0 leaves it out.
    """
    if shape.occupant is None:
        return
    balls = shape_mannequin(shape.occupant)
    width = axes.get_position().width * axes.figure.get_figwidth()
    step = max(float(np.diff(axes.get_xlim())[0]) / width / dots / _SQUARES, _FINEST)
    screen = frame_balls(camera, balls, step)
    depth, owner = look_at_balls(screen, balls)
    real, pushed = (_look_coarsely(screen, corners) for corners in _push_cloth(shape))
    behind = np.maximum(real, pushed) > depth  # pushed cloth alone leaves a gap below its edge
    bulging = behind & (real == NOTHING)  # pressed flat against cloth that is seen edge-on
    depth[bulging] = NOTHING
    opacity, rims = np.where(behind, hidden, SEEN), np.where(behind, RIM * hidden, 1.0)
    image = _colour(_shade(screen, balls, depth, owner), depth, opacity, np.minimum(rims, 1.0))
    axes.imshow(_shrink(image), extent=screen.extent, origin="lower", aspect="auto", zorder=2.5)


def draw_outline(axes: Any, shape: Shape, camera: Camera) -> None:  # noqa: ANN401
    """Draw only the outline of the person of a shape, if there is one, over everything that hides it.

    Parameters
    ----------
    axes : matplotlib Axes
        Where to draw.
    shape : Shape
        Deformed hammock.
    camera : Camera
        From where.
    """
    if shape.occupant is None:
        return
    balls = shape_mannequin(shape.occupant)
    screen = frame_balls(camera, balls, _GRAIN)
    inside = measure_cover(screen, balls)
    axes.contourf(*screen.middles, inside, levels=[0.0, 1.0], colors=[FLESH_COLOUR], alpha=0.5, zorder=4.5)
    for colour, width in (("white", 2.2), (FLESH_RIM, 1.0)):
        axes.contour(*screen.middles, inside, levels=[0.0], colors=[colour], linewidths=width, zorder=4.6)


def _look_coarsely(screen: Raster, corners: FloatArray) -> FloatArray:
    """Return how near the cloth is, found for groups of squares that make one dot of the sheet."""
    rows, columns = (-(-count // _SQUARES) for count in screen.size)
    coarse = Raster(screen.camera, screen.low, screen.step * _SQUARES, (rows, columns))
    fine = look_at_cloth(coarse, corners).repeat(_SQUARES, axis=0).repeat(_SQUARES, axis=1)
    return fine[: screen.size[0], : screen.size[1]]


def _push_cloth(shape: Shape) -> tuple[FloatArray, FloatArray]:
    """Return the corners of the triangles (m, 3, 3), and where they are once the cloth is pushed outwards, m."""
    corners = shape.points[shape.triangles]
    face = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])  # up where the cloth lies flat
    normal = np.zeros_like(shape.points)
    np.add.at(normal, shape.triangles, face[:, None])
    normal /= np.maximum(np.linalg.norm(normal, axis=1, keepdims=True), np.finfo(float).tiny)
    return corners, corners - _PRESSED * normal[shape.triangles]


def _shade(screen: Raster, balls: Balls, depth: FloatArray, owner: IntegerArray) -> FloatArray:
    """Return colours (rows, columns, 3) of round flesh under a light."""
    camera = screen.camera
    at = np.stack(np.meshgrid(*screen.middles), -1)
    middle = balls.middle[owner]
    seen = np.stack(
        [at[..., 0] - middle @ camera.right, at[..., 1] - middle @ camera.top, depth - middle @ camera.eye], -1
    )
    light = np.clip(seen @ (np.array(_LIGHT) / np.linalg.norm(_LIGHT)) / balls.radius[owner], 0.0, 1.0)
    light = np.where(np.isfinite(light), light, 0.0)[..., None]
    return np.asarray(FLESH_DARK + (0.1 + 0.9 * light) * (np.array(FLESH_COLOUR) - np.array(FLESH_DARK)))


def _colour(colours: FloatArray, depth: FloatArray, opacity: FloatArray, rims: FloatArray) -> FloatArray:
    """Return colours with opacity (rows, columns, 4), and with a dark rim of opacity ``rims`` where depth jumps."""
    body = depth > NOTHING
    level = np.where(body, depth, -10.0)
    rim = np.zeros_like(body)
    for axis, step in itertools.product((0, 1), (1, -1)):
        rim |= body & (level - np.roll(level, step, axis=axis) > _STEP)
    painted = np.where(rim[..., None], FLESH_RIM, colours)
    return np.concatenate([painted, (np.where(rim, rims, opacity) * body)[..., None]], -1)


def _shrink(image: FloatArray) -> FloatArray:
    """Return the mean of each group of squares (rows, columns, 4), colours weighed by their opacity."""
    rows, columns = (count - count % _SQUARES for count in image.shape[:2])
    image = image[:rows, :columns]
    image = np.concatenate([image[..., :3] * image[..., 3:], image[..., 3:]], -1)
    small = image.reshape(rows // _SQUARES, _SQUARES, columns // _SQUARES, _SQUARES, 4).mean(axis=(1, 3))
    return np.concatenate([small[..., :3] / np.maximum(small[..., 3:], 1e-9), small[..., 3:]], -1)
