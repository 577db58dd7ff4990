"""The lay of a cloth as it is drawn."""

from math import cos, sin

import numpy as np

from ..hammock.arrays import FloatArray
from .drawing.drawing import Lettering, LineDrawing, LineKind, Stroke
from .geometry import clip_line, find_middle
from .lay import LaidPiece, Lay
from .piece_captions import ShowLength

_WORDS = 0.03  # m, height of capitals: a lay is looked at from afar
_ARROW = 0.1  # m, half of it
_SHARE = 0.9  # of a piece, that an arrow takes at most


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


def find_arrow(each: LaidPiece) -> tuple[FloatArray, float]:
    """Return the middle (2,) of the arrow of a copy, inside it also where it is bent, and half its length, m."""
    middle, way = find_middle(each.boundary), np.array([cos(each.warp), sin(each.warp)])
    reach = 2 * float(np.ptp(each.boundary))
    runs = clip_line(middle + reach * np.array([-way, way]), each.boundary)
    ends = max(runs, key=lambda run: np.hypot(*(run[-1] - run[0])))[[0, -1]]
    return ends.mean(axis=0), min(_ARROW, _SHARE * float(np.hypot(*(ends[1] - ends[0]))) / 2)


def _draw_arrow(each: LaidPiece) -> Stroke:
    """Return an arrow along the warp of a copy, to where its own points."""
    (middle, reach), way = find_arrow(each), np.array([cos(each.warp), sin(each.warp)])
    tip, aside = middle + reach * way, np.array([-way[1], way[0]])
    barb = tip - 0.3 * reach * (way + 0.4 * aside)
    return Stroke(LineKind.GRAIN, np.array([middle - reach * way, tip, barb]))


def _name_piece(each: LaidPiece) -> Lettering:
    """Return the name of a copy beside its arrow."""
    height = min(_WORDS, each.piece.size[1] / 4)
    words = f"{each.piece.name}, turned over" if each.turned_over else each.piece.name
    return Lettering(words, find_arrow(each)[0] + np.array([0.0, 0.25 * height]), height)
