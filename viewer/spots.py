"""Hot spots in a picture: a numbered mark at each, what it means in words, and where it lies on the cloth as cut."""

from typing import Any

import numpy as np

from ..cases.judging.cloth.hot_spot import HotSpot
from ..cases.storage.stored_result import StoredResult
from ..cases.unit_display import Units, write_sentence
from .camera import project_points
from .field import show_value
from .field_list import FIELDS, NAMES
from .ghost import find_rim
from .viewpoint import Viewpoint

SPOT_COLOUR = "#c2185b"
SPOTS_TITLE = "Hot spots under the whole load: highest tension in one thread direction, mean over 25 mm"
NO_SPOTS = "Hot spots: NOT CHECKED, the mesh is too coarse along channels and bars."
_REACH, _APART = (17.0, 30.0, 44.0), 13.0  # points from a place to its number, and between two of either
_MAP_REACH, _MAP_APART = (6.5, 10.0, 15.0), 6.0  # the same on the cloth as cut
_MARGIN = 0.02  # of the width of a view, at its edges, where no mark has room
_WAYS = np.radians([60, 120, 0, 180, 300, 240, 90, 270])


def describe_spot(spot: HotSpot, units: Units) -> str:
    """Return in words where a hot spot is and the cloth tension there."""
    stress = show_value(FIELDS[0], spot.line_stress, units)
    share = show_value(NAMES[spot.thread], spot.share, units)
    return f"{write_sentence(spot.place, units)}: {spot.thread} {stress}, {share} of strength"


def list_spots(figure: Any, spots: tuple[HotSpot, ...], units: Units) -> None:  # noqa: ANN401
    """Write the hot spots at the foot of a sheet."""
    figure.text(0.03, 0.148, SPOTS_TITLE if spots else NO_SPOTS, fontsize=8, va="center", color="0.3")
    for row, spot in enumerate(spots):
        y = 0.127 - 0.0195 * row
        figure.text(0.036, y, str(row + 1), fontsize=7.5, va="center", ha="center", color=SPOT_COLOUR, weight="bold")
        figure.text(0.047, y, describe_spot(spot, units), fontsize=7.5, va="center")


def draw_spots(axes: Any, spots: tuple[HotSpot, ...], view: Viewpoint) -> None:  # noqa: ANN401
    """Draw a dot at each hot spot that is in the view, seen through everything, and its number beside it."""
    (left, right), (bottom, top) = axes.get_xlim(), axes.get_ylim()
    places = {number: project_points(view.camera, np.array(spot.loaded)) for number, spot in enumerate(spots, 1)}
    margin = _MARGIN * (right - left)
    shown = {
        number: at
        for number, at in places.items()
        if left + margin < at[0] < right - margin and bottom + margin < at[1] < top - margin
    }
    for number, offset in place_numbers(axes, shown).items():
        at = shown[number]
        axes.plot(
            *at,
            marker="o",
            markersize=5,
            color=SPOT_COLOUR,
            markeredgecolor="white",
            zorder=9,
            label=f"hot spot {number}",
        )
        axes.annotate(
            str(number),
            xy=(float(at[0]), float(at[1])),
            xytext=offset,
            textcoords="offset points",
            ha="center",
            va="center",
            fontsize=8,
            color="white",
            weight="bold",
            bbox={"boxstyle": "circle,pad=0.22", "facecolor": SPOT_COLOUR, "edgecolor": "white"},
            arrowprops={"arrowstyle": "-", "color": SPOT_COLOUR, "linewidth": 1.0, "shrinkB": 2},
            zorder=10,
        )


def place_numbers(
    axes: Any,  # noqa: ANN401
    places: dict[int, Any],
    reach: tuple[float, ...] = _REACH,
    apart: float = _APART,
) -> dict[int, tuple[float, float]]:
    """Return how far, points, each number stands from its place, so that it covers no other place or number."""
    scale = 72.0 / axes.figure.dpi
    dots = {number: scale * axes.transData.transform(at) for number, at in places.items()}
    taken = list(dots.values())
    found = {}
    for number, dot in dots.items():
        tries = [far * np.array([np.cos(way), np.sin(way)]) for far in reach for way in _WAYS]
        gaps = [min(float(np.hypot(*(dot + offset - other))) for other in taken) for offset in tries]
        free = next((place for place, gap in enumerate(gaps) if gap >= apart), int(np.argmax(gaps)))
        taken.append(dot + tries[free])
        found[number] = (float(tries[free][0]), float(tries[free][1]))
    return found


def draw_spot_map(figure: Any, result: StoredResult) -> None:  # noqa: ANN401
    """Draw the cloth as cut, head on the left, with the hot spots."""
    if not result.spots:
        return
    axes = figure.add_axes((0.835, 0.045, 0.15, 0.105))
    flat = result.shape.flat
    axes.plot(*flat[find_rim(result.shape.triangles)].T, color="0.3", linewidth=0.9)
    axes.set_aspect("equal")
    axes.apply_aspect()
    offsets = place_numbers(axes, dict(enumerate((spot.flat for spot in result.spots), 1)), _MAP_REACH, _MAP_APART)
    for number, spot in enumerate(result.spots, 1):
        axes.plot(*spot.flat, marker="o", markersize=2.5, color=SPOT_COLOUR)
        axes.annotate(
            str(number),
            spot.flat,
            offsets[number],
            textcoords="offset points",
            fontsize=6.5,
            ha="center",
            va="center",
            color=SPOT_COLOUR,
        )
    axes.set_axis_off()
    figure.text(0.91, 0.158, "cloth as cut, head left", fontsize=7, va="center", ha="center", color="0.3")
