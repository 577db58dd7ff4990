"""A piece with everything that is drawn on it."""

from collections.abc import Callable, Iterator
from math import cos, pi, sin

import numpy as np

from ..hammock.arrays import FloatArray
from .drawing.drawing import Lettering, LineDrawing, LineKind, PointKind, PointMark, Stroke
from .edge import PieceEdge, Treatment
from .geometry import clip_line, find_middle
from .piece import ClothPiece, GuideKind, Notch

ShowLength = Callable[[float], str]  # m -> number and unit
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
_TITLE, _WORDS = 0.008, 0.004  # m, height of capitals
_NAMED = 0.44  # of an edge, where its name stands: beside marks and middle lines
_INSIDE = 0.045  # m from an edge to its name
_CORNER = 1e-9  # m


def draw_piece(piece: ClothPiece, show: ShowLength) -> LineDrawing:
    """Return the drawing of a piece, whole.

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
    captions = [*_write_title(piece), *(caption for edge in piece.edges for caption in _name_edge(piece, edge, show))]
    return LineDrawing(piece.name, tuple(strokes), tuple(points), tuple(captions))


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


def _write_title(piece: ClothPiece) -> Iterator[Lettering]:
    """Yield name, number and cloth, above the arrow."""
    turned = f", {piece.mirrored} of them turned over" if piece.mirrored else ""
    lines = (piece.name, f"cut {piece.number}{turned}, {piece.fabric.name}", "warp along the arrow")
    height = min(_TITLE, piece.size[1] / 10)
    along = np.array([cos(piece.grain), sin(piece.grain)])
    up = np.array([-along[1], along[0]])
    for number, line in enumerate(reversed(lines)):
        yield Lettering(line, find_middle(piece.outline) + (0.6 + 1.7 * number) * height * up, height, piece.grain)


def _name_edge(piece: ClothPiece, edge: PieceEdge, show: ShowLength) -> Iterator[Lettering]:
    """Yield the name of an edge and what is beyond its line, inside the piece at its middle."""
    place = edge.start + _NAMED * edge.length
    normal = edge.face(place)
    angle = float(np.arctan2(normal[0], -normal[1]))
    angle = angle - pi if angle > pi / 2 + 1e-9 else angle + pi if angle < -pi / 2 - 1e-9 else angle
    height = min(_WORDS, edge.length / 60, piece.size[1] / 20)
    beyond = f", {edge.treatment}, cut {show(edge.allowance)} beyond" if edge.treatment is not Treatment.RAW else ""
    at = edge.locate(place, -min(_INSIDE, piece.size[1] / 6))
    yield Lettering(f"{edge.name}{beyond}", at, height, angle)
