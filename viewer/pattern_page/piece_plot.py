"""Pieces and lays drawn to scale for the page."""

from collections.abc import Iterator

import numpy as np
from markupsafe import Markup

from ...cases.storage.shape import FloatArray
from ...cutting import ClothPiece
from ...cutting.drawing.drawing import LineDrawing, LineKind
from ...cutting.lay import LaidPiece, Lay
from ...cutting.lay_drawing import draw_lay, find_arrow
from ...cutting.piece_drawing import trace_piece
from ..report.plot import Frame, draw_path, draw_plot, draw_text, frame_alike

_ROOM, _MARGIN = 0.06, 0.02  # m round a piece, and round a lay
_THIN = 8.0  # times its width: a longer piece is thin
_INSIDE = 0.035  # of what is seen, from an edge to its number
_ALONG = 0.35  # of an edge, where its number stands: in a flat triangle two middles are one place
_NARROW = 0.2  # m: on a lay, narrower pieces have small numbers
_ABOVE = 0.015  # m, from an arrow to a number


def plot_piece(piece: ClothPiece) -> Markup:
    """Return the drawing of a piece with its axes and the numbers of its edges, from 1."""
    drawing = trace_piece(piece)
    frame = _frame(drawing, _ROOM)
    return draw_plot(
        frame,
        f"{piece.name}, seen from its right side",
        [*_draw_strokes(frame, drawing), *_number_edges(frame, piece)],
    )


def plot_lay(lay: Lay) -> Markup:
    """Return the drawing of a lay with its axes and the numbers of its copies, from 1."""
    drawing = draw_lay(lay, str)
    frame = _frame(drawing, _MARGIN)
    numbers = [_number_copy(frame, number, each) for number, each in enumerate(lay.laid, 1)]
    return draw_plot(frame, f"lay of {lay.fabric.name}", [*_draw_strokes(frame, drawing), *numbers])


def list_copies(lay: Lay) -> str:
    """Return the names of the copies on a lay with their numbers in its drawing."""
    names = [f"{each.piece.name}, turned over" if each.turned_over else each.piece.name for each in lay.laid]
    return "; ".join(f"{number} {name}" for number, name in enumerate(names, 1))


def _frame(drawing: LineDrawing, room: float) -> Frame:
    """Return a frame round a drawing, one scale for both axes; a thin piece has no marks beside it."""
    low, high = drawing.box
    thin = (high - low)[0] > _THIN * (high - low)[1]
    return frame_alike(np.array(drawing.box), ("along", "" if thin else "across"), room)


def _draw_strokes(frame: Frame, drawing: LineDrawing) -> Iterator[Markup]:
    """Yield all lines."""
    for stroke in drawing.strokes:
        kind = "cutline" if stroke.kind is LineKind.CUT else str(stroke.kind)
        yield draw_path(frame, stroke.points, f"pattern {kind}", closed=stroke.closed)


def _number_edges(frame: Frame, piece: ClothPiece) -> Iterator[Markup]:
    """Yield the number of every edge, inside the piece."""
    inside = _INSIDE * (max(piece.size) + 2 * _ROOM)
    for number, edge in enumerate(piece.edges, 1):
        at = edge.locate(edge.start + _ALONG * edge.length, -min(inside, piece.size[1] / 4))
        yield draw_text(frame, _list(at), str(number), "mark")


def _number_copy(frame: Frame, number: int, each: LaidPiece) -> Markup:
    """Return the number of a copy above the middle of its arrow."""
    kind = "tiny" if np.ptp(each.boundary[:, 1]) < _NARROW else "mark"
    middle, _ = find_arrow(each)
    return draw_text(frame, _list(middle + np.array([0.0, _ABOVE])), str(number), kind)


def _list(at: FloatArray) -> list[float]:
    """Return a point as plain numbers."""
    return [float(each) for each in at]
