"""A piece with everything that is drawn on it."""

from collections.abc import Iterator
from dataclasses import replace
from math import cos, pi, sin

import numpy as np

from ..hammock.arrays import FloatArray
from .drawing.drawing import LineDrawing, LineKind, PointKind, PointMark, Stroke
from .edge import Treatment
from .geometry import clip_line, find_middle
from .piece import ClothPiece, GuideKind, Notch
from .piece_captions import ShowLength, write_captions

_GUIDES = {
    GuideKind.FOLD: LineKind.FOLD,
    GuideKind.PLACE: LineKind.PLACE,
    GuideKind.MIDDLE: LineKind.PLACE,
}
_TICK = 0.006  # m; no deeper than the allowances
_APART = 0.004  # m between two ticks
_CROSS = 0.004  # m, arm
_HEAD = 0.015  # m, of an arrow
_SHORTEST = 0.055  # m, half of an arrow, where the piece is long enough
_CORNER = 1e-9  # m


def draw_piece(piece: ClothPiece, show: ShowLength) -> LineDrawing:
    """Return the drawing of a piece, whole, with its words.

    Parameters
    ----------
    piece : ClothPiece
        What is drawn.
    show : callable
        How a length is written.

    Returns
    -------
    LineDrawing
        In the coordinates of the piece.
    """
    traced = trace_piece(piece)
    return replace(traced, captions=write_captions(piece, traced.strokes, show))


def trace_piece(piece: ClothPiece) -> LineDrawing:
    """Return the lines and points of a piece, whole, without words."""
    strokes = [
        Stroke(LineKind.CUT, piece.boundary, closed=True),
        *(Stroke(LineKind.SEW, edge.points) for edge in piece.edges if edge.treatment is not Treatment.RAW),
        *(Stroke(_GUIDES[guide.kind], guide.points) for guide in piece.guides),
        *(tick for notch in piece.notches for tick in _draw_ticks(notch)),
        *_draw_grain(piece),
        *(arm for mark in piece.drills for arm in _draw_cross(mark.point)),
    ]
    points = [
        *_list_vertices(piece),
        *(PointMark(PointKind.NOTCH, notch.point) for notch in piece.notches),
        *(PointMark(PointKind.DRILL, mark.point) for mark in piece.drills),
    ]
    return LineDrawing(piece.name, tuple(strokes), tuple(points))


def _list_vertices(piece: ClothPiece) -> Iterator[PointMark]:
    """Yield every vertex of the cut: corners, and points of curves."""
    away = np.linalg.norm(piece.boundary[:, None] - piece.corners, axis=-1).min(axis=1)
    for point, corner in zip(piece.boundary, away < _CORNER, strict=True):
        yield PointMark(PointKind.TURN if corner else PointKind.CURVE, point)


def _draw_ticks(notch: Notch) -> Iterator[Stroke]:
    """Yield the ticks of a notch, inward from the cut."""
    aside = np.array([-notch.inward[1], notch.inward[0]])
    for number in range(notch.ticks):
        start = notch.point + (number - (notch.ticks - 1) / 2) * _APART * aside
        yield Stroke(LineKind.NOTCH, np.array([start, start + _TICK * notch.inward]))


def _draw_cross(at: FloatArray) -> Iterator[Stroke]:
    """Yield both strokes of a cross."""
    for angle in (pi / 4, 3 * pi / 4):
        arm = _CROSS * np.array([cos(angle), sin(angle)])
        yield Stroke(LineKind.CROSS, np.array([at - arm, at + arm]))


def _draw_grain(piece: ClothPiece) -> Iterator[Stroke]:
    """Yield an arrow along the warp through the middle of the piece, pointing both ways, and inside it."""
    middle, along = find_middle(piece.outline), np.array([cos(piece.grain), sin(piece.grain)])
    reach = max(0.2 * float(np.ptp(piece.boundary @ along)), _SHORTEST)
    line = np.array([middle - reach * along, middle + reach * along])
    runs = clip_line(line, piece.outline)
    if len(runs) != 1 or len(runs[0]) > 2 or np.hypot(*(runs[0] - line).T).max() > _CORNER:  # it would leave the piece
        whole = clip_line(middle + 2 * float(np.ptp(piece.boundary)) * np.array([-along, along]), piece.outline)
        longest = max(whole, key=lambda run: np.hypot(*(run[-1] - run[0])))[[0, -1]]
        reach = min(reach, float(np.hypot(*(longest[1] - longest[0]))) / 2)
        line = longest.mean(axis=0) + reach * np.array([-along, along])
    yield Stroke(LineKind.GRAIN, line)
    for end, way in zip(line, (along, -along), strict=True):
        aside = np.array([-way[1], way[0]])
        barbs = [end + _HEAD * (way + side * 0.4 * aside) for side in (1, -1)]
        yield Stroke(LineKind.GRAIN, np.array([barbs[0], end, barbs[1]]))
