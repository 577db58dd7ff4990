"""Words around a view: the force in each part, in two rows, so that no label can cover another."""

from typing import Any, NamedTuple

import numpy as np

from ..cases.storage.shape import BARS, SIDE_CORDS, CellTag, FloatArray, Shape
from ..cases.unit_display import Units, show_quantity
from .camera import Camera, project_points

ABOVE = (
    (CellTag.HEAD_LINE,),
    (CellTag.HEAD_BAR,),
    (CellTag.LEFT_SIDE_CORD,),
    (CellTag.FOOT_BAR,),
    (CellTag.FOOT_LINE,),
)
BELOW = (
    (CellTag.HEAD_LEFT_LEG, CellTag.HEAD_RIGHT_LEG),
    (CellTag.RIGHT_SIDE_CORD,),
    (CellTag.FOOT_LEFT_LEG, CellTag.FOOT_RIGHT_LEG),
)


class Label(NamedTuple):
    """Words and the point in space (3,) they belong to."""

    text: str
    at: FloatArray


def describe_parts(shape: Shape, parts: tuple[CellTag, ...], units: Units = "both") -> Label | None:
    """Return the force in a part, or in a pair of legs, in words; None where the shape has no such part.

    Parameters
    ----------
    shape : Shape
        Deformed hammock.
    parts : tuple of CellTag
        One part, or the left and the right one of a pair.
    units : {"metric", "imperial", "both"}
        Of the words.

    Returns
    -------
    Label or None
        Largest force of the part at the place where it acts; for a pair at its right-hand one.
    """
    ours = [np.flatnonzero(shape.part == part) for part in parts]
    if not all(len(segments) for segments in ours):
        return None
    peaks = [segments[np.abs(shape.force[segments]).argmax()] for segments in ours]
    forces = [float(abs(shape.force[peak])) for peak in peaks]
    at = shape.points[shape.segments[peaks[-1]]].mean(0)
    if len(parts) > 1:
        end = "head" if "HEAD" in parts[0].name else "foot"
        left, right = (show_quantity(force, "force", units) for force in forces)
        return Label(f"{end} legs\nleft {left}\nright {right}", at)
    if parts[0] in SIDE_CORDS:
        at = shape.points[shape.segments[ours[0][len(ours[0]) // 2]]].mean(0)
    word = "thrust " if parts[0] in BARS else "max " if parts[0] in SIDE_CORDS else ""
    return Label(f"{parts[0].title}\n{word}{show_quantity(forces[0], 'force', units)}", at)


def draw_labels(axes: Any, shape: Shape, camera: Camera, units: Units = "both") -> None:  # noqa: ANN401
    """Write the force in each part in a row above and a row below the view, each with a thin line to its part.

    Parameters
    ----------
    axes : matplotlib Axes
        Where to draw; limits are set.
    shape : Shape
        Deformed hammock.
    camera : Camera
        From where.
    units : {"metric", "imperial", "both"}
        Of the words.
    """
    for row, height, anchor in ((ABOVE, 0.985, "top"), (BELOW, 0.015, "bottom")):
        found = [label for parts in row if (label := describe_parts(shape, parts, units)) is not None]
        seen = [(label.text, project_points(camera, label.at)) for label in found]
        seen.sort(key=lambda item: float(item[1][0]))
        for place, (text, at) in enumerate(seen):
            axes.plot(
                *at, marker="o", markersize=3.2, color="white", markeredgecolor="black", markeredgewidth=0.7, zorder=8
            )
            axes.annotate(
                text,
                xy=(float(at[0]), float(at[1])),
                xytext=((place + 0.5) / len(seen), height),
                textcoords="axes fraction",
                ha="center",
                va=anchor,
                fontsize=8,
                arrowprops={"arrowstyle": "-", "linewidth": 0.6, "color": "0.35", "shrinkA": 1, "shrinkB": 0},
                zorder=7,
            )
