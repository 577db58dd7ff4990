"""One view of a picture: everything that is seen from one side, at one scale."""

from typing import Any, NamedTuple

import numpy as np

from ..cases.storage.shape import BARS, LINES, FloatArray, IntegerArray, Shape
from ..cases.unit_display import Units, show_quantity
from .camera import Camera, project_points
from .cloth import draw_cloth
from .look import BAR_COLOUR, ColourScheme, paint_bars, paint_cords, widen_cords

CORD_COLOUR, TREE_COLOUR, GROUND_COLOUR = "#1f2430", "#6b5a45", "#7a7a6c"
TREE = 0.09  # m, radius of a trunk of which no girth is told
INCH = 0.0254  # m, NIST SP 811
SCALE_BARS: dict[Units, tuple[float, str]] = {  # m, and in words
    "metric": (0.5, "0.5 m"),
    "both": (0.5, f"0.5 m ({0.5 / INCH:.1f} in)"),
    "imperial": (24 * INCH, "24 in"),
}


class Inset(NamedTuple):
    """Share of a view kept free for words on each side."""

    left: float = 0.04
    right: float = 0.04
    bottom: float = 0.04
    top: float = 0.04


def fit_view(axes: Any, seen: FloatArray, inset: Inset) -> None:  # noqa: ANN401
    """Choose the limits so that the points seen (n, 2) fill the view inside ``inset`` at one scale both ways.

    Parameters
    ----------
    axes : matplotlib Axes
        Where to draw; its size on the sheet is already set.
    seen : (n, 2)
        What must be inside, m.
    inset : Inset
        What stays free around.

    Examples
    --------
    >>> from matplotlib.figure import Figure
    >>> axes = Figure((2, 1)).add_axes((0, 0, 1, 1))
    >>> fit_view(axes, np.array([[0.0, 0.0], [1.0, 1.0]]), Inset(0, 0, 0, 0))
    >>> [float(limit) for limit in (*axes.get_xlim(), *axes.get_ylim())]
    [-0.5, 1.5, 0.0, 1.0]
    """
    box = (
        axes.get_position().width * axes.figure.get_figwidth(),
        axes.get_position().height * axes.figure.get_figheight(),
    )
    room = np.array([box[0] * (1 - inset.left - inset.right), box[1] * (1 - inset.bottom - inset.top)])
    low, high = seen.min(0), seen.max(0)
    scale = float(np.max((high - low) / room))  # m per inch of paper
    start = (low + high) / 2 - scale * room / 2 - scale * np.array([box[0] * inset.left, box[1] * inset.bottom])
    axes.set_xlim(start[0], start[0] + scale * box[0])
    axes.set_ylim(start[1], start[1] + scale * box[1])
    axes.set_axis_off()


def draw_hammock(axes: Any, shape: Shape, camera: Camera, look: ColourScheme, thickness: float = 1.0) -> None:  # noqa: ANN401
    """Draw cloth, cords, lines and bars; a cord is thicker for more tension, a bar has knobs at its ends.

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
    thickness : float
        Factor on the widths of lines.
    """
    draw_cloth(axes, shape, camera, look)
    draw_lines(axes, shape, camera, look, thickness)


def draw_lines(axes: Any, shape: Shape, camera: Camera, look: ColourScheme, thickness: float = 1.0) -> None:  # noqa: ANN401
    """Draw cords, lines and bars over everything drawn already; parameters as in :func:`draw_hammock`."""
    from matplotlib.collections import LineCollection

    pieces = project_points(camera, shape.points[shape.segments])
    bars = np.isin(shape.part, BARS)
    cords = ~bars
    force = shape.force[cords]
    for colours, more in ((CORD_COLOUR, 0.9), (paint_cords(force, look), 0.0)):  # a dark rim shows on any ground
        widths = thickness * (widen_cords(force, look) + more)
        lines = LineCollection(list(pieces[cords]), colors=colours, linewidths=widths, capstyle="round", zorder=3)
        axes.add_collection(lines)
    for colours, width in ((BAR_COLOUR, 4.0), (paint_bars(shape.part[bars], shape.force[bars], look), 2.2)):
        lines = LineCollection(
            list(pieces[bars]), colors=colours, linewidths=width * thickness, capstyle="round", zorder=4
        )
        axes.add_collection(lines)
    axes.plot(*pieces[bars].reshape(-1, 2).T, marker="o", markersize=5.5, color=BAR_COLOUR, linestyle="none", zorder=4)


def draw_trees(axes: Any, shape: Shape, camera: Camera) -> None:  # noqa: ANN401
    """Draw a trunk, as thick as it is, at the far end of each line, and the ground below, for a view from a side.

    Parameters
    ----------
    axes : matplotlib Axes
        Where to draw; limits are set.
    shape : Shape
        Deformed hammock.
    camera : Camera
        From where, level with the ground.
    """
    from matplotlib.patches import Rectangle

    (left, right), (_, ceiling) = axes.get_xlim(), axes.get_ylim()
    for tree, radius in zip(find_trees(shape), find_trunks(shape), strict=True):
        (at, height), (beyond, _) = project_points(camera, np.stack([tree, tree + _reach_over(tree, radius)]))
        size = beyond - at, min(height + 0.35, ceiling)
        axes.add_patch(Rectangle((at, 0.0), *size, facecolor=TREE_COLOUR, edgecolor="none", zorder=2))
        axes.plot([at], [height], marker="s", markersize=4, color=CORD_COLOUR, zorder=5)
    axes.plot([left, right], [0.0, 0.0], color=GROUND_COLOUR, linewidth=1.6, zorder=1)


def format_clearance(shape: Shape, units: Units) -> str:
    """Return in words how high the lowest point hangs."""
    lowest = float(shape.points[:, 2].min())
    side = "above" if lowest >= 0.0 else "BELOW"
    return f"lowest point {show_quantity(abs(lowest), 'length', units)} {side} the ground"


def find_trees(shape: Shape) -> FloatArray:
    """Return where the lines end on the trees (t, 3), m: the ends of lines to which nothing else is tied.

    Parameters
    ----------
    shape : Shape
        Deformed hammock.

    Returns
    -------
    (t, 3)
        Head tree first.
    """
    return shape.points[_find_ends(shape)]


def _find_ends(shape: Shape) -> IntegerArray:
    """Return the points at which lines end on trees (t,)."""
    knots, count = np.unique(shape.segments, return_counts=True)
    loose = knots[count == 1]
    ends = [end for part in LINES for end in np.unique(shape.segments[shape.part == part]) if end in loose]
    return np.array(ends, dtype=np.int64)


def find_trunks(shape: Shape) -> FloatArray:
    """Return the radii of the trees (t,), m, in the order of :func:`find_trees`; 9 cm where no girth is told."""
    ends = _find_ends(shape)
    radii = np.zeros(len(ends)) if shape.trunk is None else shape.trunk[ends] / 2
    return np.where(radii > 0.0, radii, TREE)


def find_far_bark(shape: Shape) -> FloatArray:
    """Return the far side of each trunk at the height of its strap (t, 3), m."""
    far = find_trees(shape).copy()
    for tree, radius in zip(far, find_trunks(shape), strict=True):
        tree += _reach_over(tree, radius)
    return far


def _reach_over(tree: FloatArray, radius: float) -> FloatArray:
    """Return the way from the near to the far side of a trunk (3,), m."""
    return np.array([np.sign(tree[0]) * 2 * radius, 0.0, 0.0])


def draw_scale_bar(axes: Any, at: tuple[float, float], units: Units = "both") -> None:  # noqa: ANN401
    """Draw a bar of a round length with its length in words.

    Parameters
    ----------
    axes : matplotlib Axes
        Where to draw; limits are set.
    at : (share, share)
        Left end, as shares of the view.
    units : {"metric", "imperial", "both"}
        Of the words; they choose the length too.
    """
    from matplotlib.patches import Rectangle

    length, words = SCALE_BARS[units]
    (left, right), (bottom, top) = axes.get_xlim(), axes.get_ylim()
    x, y = left + at[0] * (right - left), bottom + at[1] * (top - bottom)
    tick = 0.012 * (top - bottom)
    ground = (x - tick, y - 2 * tick), length + 2 * tick, 6 * tick
    axes.add_patch(Rectangle(*ground, facecolor="white", alpha=0.8, zorder=5.9))  # readable before cloth, too
    axes.plot(
        [x, x, x, x + length, x + length, x + length],
        [y - tick, y + tick, y, y, y - tick, y + tick],
        color="black",
        linewidth=1.0,
        zorder=6,
    )
    axes.text(
        x + length / 2,
        y + 1.5 * tick,
        words,
        ha="center",
        va="bottom",
        fontsize=7,
        zorder=6,
    )
