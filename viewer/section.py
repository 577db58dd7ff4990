"""The cloth and the person cut perpendicular to the hammock at the shoulders."""

from math import cos, degrees, sin
from typing import Any

import numpy as np

from ..cases.judging.comfort.cloth_slice import WINDOW, ClothSlice, cut_cloth, find_bend, find_height, find_slope
from ..cases.judging.comfort.measure_list import find_measure
from ..cases.storage.shape import CellTag, Shape
from ..cases.unit_display import Units, show_quantity
from .camera import aim_camera
from .mannequin import Balls, shape_mannequin
from .person import FLESH_COLOUR, FLESH_RIM
from .raster import frame_balls, measure_cover
from .view import CORD_COLOUR, Inset, draw_scale_bar, fit_view

CLOTH_COLOUR, SLOPE_COLOUR = "#31688e", "#9c4a1a"
_GRAIN = 0.003  # m, squares of the flesh
_REACH = 0.16  # m, of the line that shows a slope
_LEAST_APART = 0.5  # of their distance: shoulders closer side by side stand above each other


def draw_section(axes: Any, shape: Shape, units: Units) -> None:  # noqa: ANN401
    """Draw cloth and flesh cut at the shoulders, seen from the foot end, and how steep the cloth is there.

    Parameters
    ----------
    axes : matplotlib Axes
        Where to draw; its size on the sheet is already set.
    shape : Shape
        With a person in contact.
    units : {"metric", "imperial", "both"}
        Of the words.
    """
    assert shape.occupant is not None
    (shoulders,) = shape.occupant.axes[shape.occupant.part == CellTag.SHOULDERS]
    x = float(shoulders[:, 0].mean())
    section = cut_cloth(shape.points, shape.triangles, x)
    discs = _cut_balls(shape_mannequin(shape.occupant), x)
    seen = [discs.middle[:, 1:] + side * discs.radius[:, None] for side in (-1, 1)]
    fit_view(axes, np.concatenate([section.line, *seen]), Inset(0.06, 0.06, 0.30, 0.20))
    _draw_flesh(axes, discs)
    _draw_cloth(axes, section, shape.occupant.pressure[section.triangles] > 0.0)
    words = "cut at the shoulders, from the foot end;\nthe cloth is thick where it is in contact"
    axes.text(0.5, 1.0, words, transform=axes.transAxes, ha="center", va="top", fontsize=8)
    draw_scale_bar(axes, (0.08, 0.17), units)
    left, right = shoulders
    if abs(left[1] - right[1]) > _LEAST_APART * np.linalg.norm(left - right):
        for end in (left, right):
            _draw_slope(axes, section, float(end[1]))
        bend = find_bend(section, float(left[1]), float(right[1]))
        words = f"{find_measure('shoulder_angle_rad').title}\n{show_quantity(bend, 'angle', units)}"
        axes.text(0.5, 0.0, words, transform=axes.transAxes, ha="center", va="bottom", fontsize=8)


def _cut_balls(balls: Balls, x: float) -> Balls:
    """Return the balls met at ``x``, each as thick as it is there."""
    cut = np.sqrt(np.maximum(balls.radius**2 - (balls.middle[:, 0] - x) ** 2, 0.0))
    return Balls(balls.middle[cut > 0.0], cut[cut > 0.0])


def _draw_flesh(axes: Any, discs: Balls) -> None:  # noqa: ANN401
    """Draw the flesh that is cut, hatched."""
    screen = frame_balls(aim_camera(0, 0), discs, _GRAIN)
    inside = measure_cover(screen, discs)
    axes.contourf(*screen.middles, inside, levels=[0.0, 1.0], colors=[FLESH_COLOUR], hatches=["////"], zorder=1)
    axes.contour(*screen.middles, inside, levels=[0.0], colors=[FLESH_RIM], linewidths=1.0, zorder=2)


def _draw_cloth(axes: Any, section: ClothSlice, pressed: Any) -> None:  # noqa: ANN401
    """Draw the cut cloth, thick where the person presses on it, and a dot for each side cord."""
    from matplotlib.collections import LineCollection

    for which, width in ((~pressed, 1.4), (pressed, 3.6)):
        pieces = list(section.pieces[which])
        axes.add_collection(LineCollection(pieces, colors=CLOTH_COLOUR, linewidths=width, capstyle="round", zorder=3))
    axes.plot(*section.line[[0, -1]].T, marker="o", markersize=4, color=CORD_COLOUR, linestyle="none", zorder=4)


def _draw_slope(axes: Any, section: ClothSlice, y: float) -> None:  # noqa: ANN401
    """Draw the slope of the cloth at ``y`` against the horizontal."""
    from matplotlib.patches import Arc

    slope, side = find_slope(section, y), float(np.sign(y))
    z = (find_height(section, y - WINDOW) + find_height(section, y + WINDOW)) / 2
    for angle, style, width in ((slope, "--", 1.2), (0.0, "-", 0.7)):
        axes.plot(
            [y, y + side * _REACH * cos(angle)],
            [z, z + side * _REACH * sin(angle)],
            linestyle=style,
            linewidth=width,
            color=SLOPE_COLOUR,
            zorder=5,
        )
    start = 0.0 if side > 0 else 180.0
    ends = sorted((start, start + degrees(slope)))
    axes.add_patch(
        Arc((y, z), 1.2 * _REACH, 1.2 * _REACH, theta1=ends[0], theta2=ends[1], color=SLOPE_COLOUR, zorder=5)
    )
