"""Cuts through the loaded hammock: perpendicular to it at both bars and the shoulders, and along its middle."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from markupsafe import Markup

from ...cases.judging.comfort.cloth_slice import cut_cloth
from ...cases.storage.shape import CellTag, FloatArray, Shape
from ..mannequin import Capsule, list_rods
from .plot import Frame, draw_path, draw_plot, frame_alike
from .wording import mark_quantity

_INBOARD = 0.05  # m from a bar to the cut beside it: at the bar itself the cloth only hangs from two corners
_ROUND = np.linspace(0.0, 2 * np.pi, 33)
_SLICES = np.linspace(0.0, 1.0, 13)  # of a rod, cut through


class _Cut(NamedTuple):
    """Where a section is taken, m, what stands there, and the bar (2, 3) beside it, if any."""

    title: str
    x: float
    words: str
    bar: FloatArray | None


def draw_sections(shape: Shape) -> Iterator[tuple[str, Markup, Markup]]:
    """Yield title, drawing and words of the cross-section at each bar, and at the shoulders of a person in contact.

    Parameters
    ----------
    shape : Shape
        Loaded shape.
    """
    for cut in _list_cuts(shape):
        line = cut_cloth(shape.points, shape.triangles, cut.x).line
        balls = [ball for rod in _list_flesh(shape) for ball in _cut_rod(rod, cut.x)]
        seen = [line, *([] if cut.bar is None else [cut.bar[:, 1:]]), *balls]
        frame = frame_alike(np.concatenate(seen), ("left of the centre line", "height"))
        parts = [_draw_flesh(frame, balls)]
        parts.append(draw_path(frame, line, "cloth"))
        if cut.bar is not None:
            parts.append(draw_path(frame, cut.bar[:, 1:], "bar"))
        depth = float(line[[0, -1], 1].mean() - line[:, 1].min())
        words = Markup("{} The cloth hangs {} below the side cords.").format(cut.words, mark_quantity(depth, "length"))
        yield cut.title, draw_plot(frame, f"{cut.title}, seen from the foot end", parts), words


def draw_back_line(shape: Shape) -> tuple[Markup, Markup]:
    """Return drawing and words of the cloth cut along its middle, with the person behind the cut.

    Parameters
    ----------
    shape : Shape
        Loaded shape.
    """
    swapped = shape.points[:, [1, 0, 2]]
    line = cut_cloth(swapped, shape.triangles, float(_find_middle(shape))).line
    bars = [_find_bar(shape, part).mean(axis=0)[[0, 2]] for part in (CellTag.HEAD_BAR, CellTag.FOOT_BAR)]
    outlines = [_outline_rod(rod) for rod in _list_flesh(shape)]
    frame = frame_alike(np.concatenate([line, bars, *outlines]), ("along, head on the left", "height"))
    parts = [_draw_flesh(frame, outlines)]
    parts.append(draw_path(frame, line, "cloth"))
    parts += [_draw_dot(frame, bar) for bar in bars]
    words = "The cloth along its centre line; the dots are the bars seen from their ends."
    if outlines:
        words += " The person is drawn round; where the body overlaps the cloth, soft tissue is pressed flat."
    return draw_plot(frame, "The loaded cloth along its centre line, from the side", parts), Markup("{}").format(words)


def _list_cuts(shape: Shape) -> Iterator[_Cut]:
    """Yield where sections are taken, from the head."""
    words = "Cut {} inboard of the bar, seen from the foot end."
    inboard = Markup(words).format(mark_quantity(_INBOARD, "length"))
    head, foot = (_find_bar(shape, part) for part in (CellTag.HEAD_BAR, CellTag.FOOT_BAR))
    yield _Cut("Under the head bar", float(head[:, 0].mean()) + _INBOARD, inboard, head)
    if shape.occupant is not None:
        shoulders = shape.occupant.axes[shape.occupant.part == CellTag.SHOULDERS]
        note = "Seen from the foot end; where the body overlaps the cloth, soft tissue is pressed flat."
        yield _Cut("At the shoulders", float(shoulders[..., 0].mean()), note, None)
    yield _Cut("Under the foot bar", float(foot[:, 0].mean()) - _INBOARD, inboard, foot)


def _find_bar(shape: Shape, part: CellTag) -> FloatArray:
    """Return the ends of a bar (2, 3), m."""
    ends: FloatArray = shape.points[shape.segments[shape.part == part]].reshape(-1, 3)
    return ends[np.argsort(ends[:, 1])][[0, -1]]


def _find_middle(shape: Shape) -> np.float64:
    """Return y of the middle between both bars, m; a hair beside it, where no row of nodes stands."""
    bars = np.concatenate([_find_bar(shape, part) for part in (CellTag.HEAD_BAR, CellTag.FOOT_BAR)])
    return np.float64(bars[:, 1].mean() + 1e-6)


def _list_flesh(shape: Shape) -> list[Capsule]:
    """Return the person as rods; none where nobody is in contact."""
    return [] if shape.occupant is None else list_rods(shape.occupant)


def _cut_rod(rod: Capsule, x: float) -> Iterator[FloatArray]:
    """Yield the circles (n, 2) in which a plane perpendicular to the hammock cuts a rod."""
    for share in _SLICES:
        middle = rod.start + share * (rod.end - rod.start)
        radius = rod.first + share * (rod.last - rod.first)
        if (under := radius**2 - (middle[0] - x) ** 2) > 0.0:
            yield middle[1:] + np.sqrt(under) * np.stack([np.cos(_ROUND), np.sin(_ROUND)], -1)


def _outline_rod(rod: Capsule) -> FloatArray:
    """Return the outline (n, 2) of a rod from the side: the hull of its two circles."""
    from scipy.spatial import ConvexHull

    circles = [
        ball[[0, 2]] + radius * np.stack([np.cos(_ROUND), np.sin(_ROUND)], -1)
        for ball, radius in ((rod.start, rod.first), (rod.end, rod.last))
    ]
    points = np.concatenate(circles)
    return np.asarray(points[ConvexHull(points).vertices])


def _draw_flesh(frame: Frame, outlines: list[FloatArray]) -> Markup:
    """Draw flesh, alike where outlines overlap."""
    drawn = Markup("").join(draw_path(frame, outline, "", closed=True) for outline in outlines)
    return Markup('<g class="flesh">{}</g>').format(drawn)


def _draw_dot(frame: Frame, at: FloatArray) -> Markup:
    """Draw a bar seen from its end."""
    x, y = frame.place(np.asarray(at))
    return Markup('<circle class="bar-end" cx="{:.5g}" cy="{:.5g}" r="4"/>').format(x, y)
