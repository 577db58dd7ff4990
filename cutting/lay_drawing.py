"""The lay of a cloth as it is drawn."""

from math import cos, sin

import numpy as np

from .drawing.drawing import Lettering, LineDrawing, LineKind, Stroke
from .geometry import find_middle
from .lay import LaidPiece, Lay
from .piece_captions import ShowLength

_WORDS = 0.03  # m, height of capitals: a lay is looked at from afar
_ARROW = 0.1  # m


def draw_lay(lay: Lay, show: ShowLength) -> LineDrawing:
    """Return the drawing of a lay: cloth from selvedge to selvedge, and every copy on it.

    Parameters
    ----------
    lay : Lay
        What is drawn.
    show : callable
        How a length is written.
    """
    corners = np.array([[0.0, 0.0], [lay.length, 0.0], [lay.length, lay.width], [0.0, lay.width]])
    cloth = Stroke(LineKind.PLACE, corners, closed=True)
    pieces = [Stroke(LineKind.CUT, each.boundary, closed=True) for each in lay.laid]
    arrows = [_draw_arrow(each) for each in lay.laid]
    title = f"{lay.fabric.name}, {show(lay.width)} wide, {show(lay.length)} long"
    head = Lettering(title, np.array([lay.length / 2, lay.width + _WORDS]), _WORDS)
    names = [_name_piece(each) for each in lay.laid]
    return LineDrawing(lay.fabric.name, (cloth, *pieces, *arrows), (), (head, *names))


def _draw_arrow(each: LaidPiece) -> Stroke:
    """Return an arrow along the warp of a copy, to where its own points."""
    middle, way = find_middle(each.boundary), np.array([cos(each.warp), sin(each.warp)])
    tip, aside = middle + _ARROW * way, np.array([-way[1], way[0]])
    barb = tip - 0.3 * _ARROW * (way + 0.4 * aside)
    return Stroke(LineKind.GRAIN, np.array([middle - _ARROW * way, tip, barb]))


def _name_piece(each: LaidPiece) -> Lettering:
    """Return the name of a copy beside its arrow."""
    height = min(_WORDS, each.piece.size[1] / 4)
    words = f"{each.piece.name}, turned over" if each.turned_over else each.piece.name
    return Lettering(words, find_middle(each.boundary) + np.array([0.0, 0.25 * height]), height)
