"""What is printed on a sheet beside the drawing: crosses to glue by, its name, and those of its neighbours.

Names stand off the lines and the words of the drawing where there is room.
"""

from collections.abc import Iterator
from itertools import product
from typing import TYPE_CHECKING

import numpy as np

from ...hammock.arrays import FloatArray
from .caption_room import CaptionRoom, measure_words
from .drawing import LineDrawing
from .paper import MARGIN, OVERLAP
from .paper_sheet import PaperSheet, Tiling
from .pdf import FONT, POINT

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

GREY = "#888888"
_CROSS = 0.004  # m, arm
_NAME, _SMALL = 28.0, 8.0  # points
_CAPITAL = 0.72  # of the size of type
_INSET = 1.7 * MARGIN  # m from the rim of the paper to the names of neighbours
_SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)  # of a side, where a name may stand; the best first
_HEIGHTS = (0.8, 0.65, 0.5, 0.35, 0.2)  # of the paper, from below
_BEYOND = 1.0  # m: sheets reach no farther beyond a drawing


def open_room(drawing: LineDrawing) -> CaptionRoom:
    """Return what room a drawing and its words leave on the sheets."""
    (left, below), (right, above) = (corner.tolist() for corner in drawing.box)
    x, y = (left - _BEYOND, right + _BEYOND), (below - _BEYOND, above + _BEYOND)
    room = CaptionRoom(np.array([[x[0], y[0]], [x[1], y[0]], [x[1], y[1]], [x[0], y[1]]]), drawing.strokes)
    for caption in drawing.captions:
        up = np.array([-np.sin(caption.angle), np.cos(caption.angle)])
        size = measure_words((caption.text,), caption.height)
        room.keep_off(size, caption.at + caption.height / 2 * up, caption.angle)
    return room


def mark_sheet(canvas: "Canvas", tiling: Tiling, sheet: PaperSheet, title: str, room: CaptionRoom) -> None:
    """Draw the crosses of one sheet, its name and those of its neighbours.

    Parameters
    ----------
    canvas : Canvas
        Its page.
    tiling : Tiling
        All sheets of its drawing.
    sheet : PaperSheet
        One of them.
    title : str
        Of the file.
    room : CaptionRoom
        That its drawing leaves.
    """
    canvas.setStrokeColor(GREY)
    canvas.setFillColor(GREY)
    canvas.setLineWidth(0.4)
    for corner in product((0, 1), (0, 1)):
        x, y = np.array(sheet.window.place) + OVERLAP / 2 + np.array(tiling.paper.step) * np.array(corner)
        canvas.line((x - _CROSS) / POINT, y / POINT, (x + _CROSS) / POINT, y / POINT)
        canvas.line(x / POINT, (y - _CROSS) / POINT, x / POINT, (y + _CROSS) / POINT)
    _write_name(canvas, tiling, sheet, title, room)
    canvas.setFont(FONT, _SMALL)
    for name, places in _list_neighbours(tiling, sheet):
        size = measure_words((f"to {name}",), _SMALL * _CAPITAL * POINT)
        x, y = _choose(room, sheet, size, places)
        canvas.drawCentredString(x / POINT, y / POINT - _SMALL * _CAPITAL / 2, f"to {name}")


def _write_name(canvas: "Canvas", tiling: Tiling, sheet: PaperSheet, title: str, room: CaptionRoom) -> None:
    """Write the name of a sheet, and below it of what."""
    words, capital = f"{title}: {tiling.drawing.name}", _NAME * _CAPITAL * POINT
    lines = ((sheet.name,), capital), ((words,), _SMALL * _CAPITAL * POINT)
    widths, heights = zip(*(measure_words(*each) for each in lines), strict=True)
    paper = tiling.paper
    places = np.array([(x * paper.width, y * paper.height) for y, x in product(_HEIGHTS, _SHARES)])
    x, y = _choose(room, sheet, (max(widths), sum(heights)), places) / POINT
    canvas.setFont(FONT, _NAME)
    canvas.drawCentredString(x, y - sum(heights) / 2 / POINT + heights[1] / POINT + 0.4 * capital / POINT, sheet.name)
    canvas.setFont(FONT, _SMALL)
    canvas.drawCentredString(x, y - sum(heights) / 2 / POINT + 0.4 * _SMALL * _CAPITAL, words)


def _list_neighbours(tiling: Tiling, sheet: PaperSheet) -> Iterator[tuple[str, FloatArray]]:
    """Yield the name of every neighbour, and where on the paper it may stand (k, 2), m, the best first."""
    names = {(each.column, each.row): each.name for each in tiling.sheets}
    size = np.array([tiling.paper.width, tiling.paper.height])
    for axis, beyond in product((0, 1), (False, True)):
        step = [0, 0]
        step[axis] = 1 if beyond is (axis == 0) else -1  # rows are counted from above
        if (name := names.get((sheet.column + step[0], sheet.row + step[1]))) is not None:
            places = np.outer(_SHARES, size)
            places[:, axis] = size[axis] - _INSET if beyond else _INSET
            yield name, places


def _choose(room: CaptionRoom, sheet: PaperSheet, size: tuple[float, float], places: FloatArray) -> FloatArray:
    """Return the first place (2,), m on the paper, where a box has room; else the first of all."""
    seen = places - np.array(sheet.window.place) + sheet.window.low
    found = room.find_place(size, seen, np.zeros(len(seen)), crossing=False)
    return np.asarray(places[found or 0])
