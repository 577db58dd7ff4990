"""Drawings cut up into sheets of paper, with marks to glue them together by."""

from collections.abc import Sequence
from itertools import product
from math import ceil
from typing import TYPE_CHECKING

import numpy as np

from ...hammock.arrays import FloatArray
from .drawing import LineDrawing, LineKind
from .paper import MARGIN, OVERLAP, Paper
from .paper_sheet import PaperSheet, Tiling
from .pdf import FONT, POINT, PageWindow, clip_strokes, close_canvas, draw_window, find_colour, open_canvas
from .sheet_marks import GREY, mark_sheet, open_room
from .svg import DASHES

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

SQUARE = 0.100  # m
BAR = 0.1016  # m, 4 in
_SMALL, _LARGE = 8.0, 14.0  # points
_SHARES = (0.0, 0.25, 0.5, 0.75, 1.0)  # of what the grid is larger than the drawing
_DOTS = 0.02  # m
_COVER = 0.30  # m of a roll
_KEY = ("cut", "sew, or finished edge", "fold", "something is sewn along here", "notch", "warp", "point")


def tile_drawing(drawing: LineDrawing, paper: Paper, prefix: str = "") -> Tiling:
    """Return a drawing on as few sheets as it takes, upright or on their side; a sheet without a line is left out.

    Parameters
    ----------
    drawing : LineDrawing
        What is printed.
    paper : Paper
        On what.
    prefix : str
        Before the names of its sheets.
    """
    tilings = [_tile(drawing, each, prefix) for each in (paper, paper.turn())]
    return min(tilings, key=lambda tiling: len(tiling.sheets))


def _tile(drawing: LineDrawing, paper: Paper, prefix: str) -> Tiling:
    """Return a drawing on paper as it lies."""
    low, high = drawing.box
    size = high - low
    counts = [max(ceil((each - OVERLAP) / step - 1e-9), 1) for each, step in zip(size, paper.step, strict=True)]
    if paper.roll:
        paper = _cut_roll(paper, size, counts)
    step = np.array(paper.step)
    start = _choose_start(drawing, low, np.array(counts) * step + OVERLAP - size, (step, np.array(counts)))
    sheets = []
    for row, column in product(range(counts[1]), range(counts[0])):
        place = np.array([column, counts[1] - 1 - row])
        window, own = PageWindow(start + step * place, paper.room), _find_own(start, place, (step, np.array(counts)))
        if any(True for _ in clip_strokes(drawing.strokes, own)):
            sheets.append(PaperSheet(f"{prefix}{name_column(column)}{row + 1}", column, row, window))
    return Tiling(drawing, paper, tuple(sheets))


def _find_own(start: FloatArray, place: FloatArray, grid: tuple[FloatArray, FloatArray]) -> PageWindow:
    """Return the part of a sheet that no other shows better: to the middle of what it shares with its neighbours."""
    step, counts = grid
    low = start + step * place + np.where(place > 0, OVERLAP / 2, 0.0)
    high = start + step * (place + 1) + np.where(place < counts - 1, OVERLAP / 2, OVERLAP)
    across, up = high - low
    return PageWindow(low, (float(across), float(up)))


def _choose_start(
    drawing: LineDrawing, low: FloatArray, spare: FloatArray, grid: tuple[FloatArray, FloatArray]
) -> FloatArray:
    """Return where the grid begins (2,), m, of the places it may the one that leaves most sheets empty."""
    step, counts = grid
    points = np.concatenate([_dot(stroke.path) for stroke in drawing.strokes])
    starts = [low - spare * np.array(share) for share in product(_SHARES, _SHARES)]

    def count(start: FloatArray) -> int:
        cells = np.clip(np.floor((points - start - OVERLAP / 2) / step), 0, counts - 1)
        return len(np.unique(cells[:, 0] * (counts[1] + 1) + cells[:, 1]))

    return min(starts, key=count)


def _dot(path: FloatArray) -> FloatArray:
    """Return points (k, 2), m, along a path, close enough to tell which sheets it crosses."""
    reached = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(path, axis=0).T))])
    stops = np.linspace(0.0, reached[-1], ceil(reached[-1] / _DOTS) + 1)
    return np.stack([np.interp(stops, reached, column) for column in path.T], -1)


def _cut_roll(paper: Paper, size: FloatArray, counts: list[int]) -> Paper:
    """Return a piece of a roll, no longer than it must be where one piece is enough."""
    along = 0 if paper.width > paper.height else 1
    needed = float(size[along]) + 2 * MARGIN if counts[along] == 1 else (paper.width, paper.height)[along]
    return paper._replace(width=needed) if along == 0 else paper._replace(height=needed)


def name_column(number: int) -> str:
    """Return the letters of a column.

    Examples
    --------
    >>> name_column(1), name_column(26)
    ('B', 'AA')
    """
    head, last = divmod(number, 26)
    return (name_column(head - 1) if head else "") + chr(ord("A") + last)


def write_sheets(drawings: Sequence[LineDrawing], paper: Paper, title: str, notes: Sequence[str]) -> bytes:
    """Return a cover with a test square, a key and a map, then the sheets of every drawing.

    Parameters
    ----------
    drawings : sequence of LineDrawing
        What is printed; the sheets of all but the first are named by a number and letters.
    paper : Paper
        On what.
    title : str
        Of the file.
    notes : sequence of str
        Lines for the cover.
    """
    tilings = [
        tile_drawing(drawing, paper, f"{number}-" if number > 1 else "") for number, drawing in enumerate(drawings, 1)
    ]
    canvas, stream = open_canvas(title)
    _draw_cover(canvas, paper, title, notes, tilings)
    for tiling in tilings:
        room = open_room(tiling.drawing)
        for sheet in tiling.sheets:
            canvas.setPageSize((tiling.paper.width / POINT, tiling.paper.height / POINT))
            draw_window(canvas, tiling.drawing, sheet.window)
            mark_sheet(canvas, tiling, sheet, title, room)
            canvas.showPage()
    return close_canvas(canvas, stream)


def _draw_cover(canvas: "Canvas", paper: Paper, title: str, notes: Sequence[str], tilings: Sequence[Tiling]) -> None:
    """Draw the first page."""
    width, height = paper.width / POINT, (_COVER if paper.roll else paper.height) / POINT
    canvas.setPageSize((width, height))
    left, y = 1.5 * MARGIN / POINT, height - 2 * MARGIN / POINT
    canvas.setFillColor("#000000")
    canvas.setFont(FONT, _LARGE)
    canvas.drawString(left, y, title)
    y -= 1.2 * _LARGE
    canvas.setFont(FONT, _SMALL)
    warning = (
        "Print at 100 % (actual size, not fit to page).",
        "Before you cut, measure the square with a steel rule, both ways, and the bar: 100 mm, 4 in. Half a millimetre",
        "off is 1 cm on 2 m of cloth: print again. Then measure how long each glued piece is, the first number below.",
    )
    for line in (*warning, *notes):
        y -= 1.35 * _SMALL
        canvas.drawString(left, y, line)
    y -= _SMALL + SQUARE / POINT
    canvas.setStrokeColor("#000000")
    canvas.setLineWidth(0.5)
    canvas.rect(left, y, SQUARE / POINT, SQUARE / POINT)
    canvas.drawCentredString(left + SQUARE / POINT / 2, y + SQUARE / POINT / 2, "100 mm square")
    _draw_bar(canvas, left, y - 2 * _SMALL)
    _draw_key(canvas, left + (SQUARE + 0.008) / POINT, y + SQUARE / POINT)
    _draw_maps(canvas, tilings, left, y - 4.5 * _SMALL, width - 2 * left)
    canvas.showPage()


def _draw_bar(canvas: "Canvas", x: float, y: float) -> None:
    """Draw a bar of four inches."""
    canvas.line(x, y, x + BAR / POINT, y)
    for number in range(5):
        canvas.line(x + number * BAR / 4 / POINT, y - 3, x + number * BAR / 4 / POINT, y + 3)
    canvas.drawString(x + BAR / POINT + 6, y - 3, "4 inches")


def _draw_key(canvas: "Canvas", x: float, y: float) -> None:
    """Draw what each kind of line means."""
    for number, (kind, words) in enumerate(zip(LineKind, _KEY, strict=True)):
        at = y - (number + 1) * 1.8 * _SMALL
        canvas.setStrokeColor(find_colour(kind))
        canvas.setDash([each / 2000 / POINT for each in DASHES.get(kind, ())])
        canvas.line(x, at + 2, x + 30, at + 2)
        canvas.setDash()
        canvas.drawString(x + 36, at, words)


def _draw_maps(canvas: "Canvas", tilings: Sequence[Tiling], x: float, y: float, width: float) -> None:
    """Draw each drawing small, with the grid of its sheets, in as many columns as show the smallest best."""
    height, options = y - 2 * MARGIN / POINT, range(1, len(tilings) + 1)
    columns = max(options, key=lambda count: min(_scale_map(each, count, width, height, tilings) for each in tilings))
    rows = ceil(len(tilings) / columns)
    for number, tiling in enumerate(tilings):
        low, high = _find_extent(tiling)
        row, column = divmod(number, columns)
        left, top = x + column * width / columns, y - row * height / rows
        scale = _scale_map(tiling, columns, width, height, tilings)
        corner = np.array([left, top - 1.5 * _SMALL - scale * (high - low)[1]])
        canvas.setFillColor("#000000")
        canvas.setFont(FONT, _SMALL)
        count = len(tiling.sheets)
        canvas.drawString(left, top - _SMALL, f"{tiling.drawing.name}: {count} {'sheet' if count == 1 else 'sheets'}")
        _draw_map(canvas, tiling, corner, low, scale)


def _find_extent(tiling: Tiling) -> tuple[FloatArray, FloatArray]:
    """Return the corners (2,), m, of all sheets together."""
    lows = [sheet.window.low for sheet in tiling.sheets]
    return np.min(lows, axis=0), np.max(lows, axis=0) + np.array(tiling.paper.room)


def _scale_map(tiling: Tiling, columns: int, width: float, height: float, tilings: Sequence[Tiling]) -> float:
    """Return how large a map fits its cell, points per metre, where all stand in so many columns."""
    low, high = _find_extent(tiling)
    across, up = high - low
    rows = ceil(len(tilings) / columns)
    return float(min((width / columns - _SMALL) / across, (height / rows - 2.5 * _SMALL) / up))


def _draw_map(canvas: "Canvas", tiling: Tiling, corner: FloatArray, low: FloatArray, scale: float) -> None:
    """Draw the cut of one drawing and its sheets, small."""
    canvas.setStrokeColor(GREY)
    canvas.setLineWidth(0.4)
    step = np.array(tiling.paper.step)
    longest = max(len(sheet.name) for sheet in tiling.sheets)
    canvas.setFont(FONT, min(0.75 * _SMALL, 0.6 * scale * step[1], scale * step[0] / (0.65 * longest)))
    for sheet in tiling.sheets:
        x, y = corner + scale * (sheet.window.low + OVERLAP / 2 - low)
        canvas.rect(x, y, scale * step[0], scale * step[1])
        canvas.drawCentredString(x + scale * step[0] / 2, y + scale * step[1] / 2 - 2, sheet.name)
    canvas.setStrokeColor("#000000")
    for stroke in tiling.drawing.strokes:
        if stroke.kind is LineKind.CUT:
            seen = corner + scale * (stroke.path - low)
            path = canvas.beginPath()
            path.moveTo(*map(float, seen[0]))
            for point in seen[1:]:
                path.lineTo(*map(float, point))
            canvas.drawPath(path)
