"""Drawings as PDF at true size: whole, and on sheets that are glued together."""

import io
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from ...hammock.arrays import FloatArray
from ...materials.short_repr import write_repr, write_value
from .caption_room import measure_words
from .drawing import Lettering, LineDrawing, LineKind, Stroke
from .paper import LONGEST, MARGIN
from .svg import DASHES, STYLES

if TYPE_CHECKING:
    from reportlab.lib.colors import Color
    from reportlab.pdfgen.canvas import Canvas

POINT = 0.0254 / 72  # m
_ROUND = 1e-12  # of a segment
_RIM = 1e-9  # m: a line on the rim of a page is on it, whatever rounding says
_HAIR = 0.6  # points
FONT = "Helvetica"


class PageWindow(NamedTuple):
    """A part of the plane that is seen on a page: its lower left corner, its size, where it lies on the page, m."""

    low: FloatArray
    size: tuple[float, float]
    place: tuple[float, float] = (MARGIN, MARGIN)

    def __repr__(self) -> str:
        return write_repr(self, " x ".join(write_value(each, "length") for each in self.size))


def open_canvas(title: str) -> "tuple[Canvas, io.BytesIO]":
    """Return an empty PDF, the same on every run, that asks to be printed at true size."""
    from reportlab.pdfgen.canvas import Canvas

    stream = io.BytesIO()
    canvas = Canvas(stream, invariant=1, pageCompression=1)
    canvas.setTitle(title)
    canvas.setViewerPreference("PrintScaling", "None")
    return canvas, stream


def close_canvas(canvas: "Canvas", stream: io.BytesIO) -> bytes:
    """Return the whole PDF, its pages as bytes: as text they take a quarter more room, and longer than to draw."""
    from reportlab import rl_config

    before = rl_config.useA85
    rl_config.useA85 = 0
    try:
        canvas.save()
    finally:
        rl_config.useA85 = before
    return stream.getvalue()


def write_whole(drawings: Sequence[LineDrawing], title: str) -> bytes:
    """Return each drawing on a page of its own, as large as it is.

    Parameters
    ----------
    drawings : sequence of LineDrawing
        None longer or wider than a page may be.
    title : str
        Of the file.

    Raises
    ------
    ValueError
        For a drawing that no page holds.
    """
    canvas, stream = open_canvas(title)
    for drawing in drawings:
        low, high = drawing.box
        width, height = high - low
        if max(width, height) + 2 * MARGIN > LONGEST:
            raise ValueError(
                f"{drawing.name} is {max(width, height):.2f} m long; a page holds {LONGEST - 2 * MARGIN:g} m."
            )
        canvas.setPageSize(((width + 2 * MARGIN) / POINT, (height + 2 * MARGIN) / POINT))
        draw_window(canvas, drawing, PageWindow(low, (width, height)))
        canvas.showPage()
    return close_canvas(canvas, stream)


def draw_window(canvas: "Canvas", drawing: LineDrawing, window: PageWindow) -> None:
    """Draw what of a drawing lies in a window."""
    for stroke, runs in clip_strokes(drawing.strokes, window):
        canvas.setStrokeColor(find_colour(stroke.kind))
        canvas.setLineWidth(_HAIR if stroke.kind is not LineKind.CUT else 1.5 * _HAIR)
        for run, reached in runs:
            _set_dash(canvas, stroke.kind, reached)
            _draw_run(canvas, _to_page(run, window))
    canvas.setDash()
    _draw_captions(canvas, drawing.captions, window)


@lru_cache(maxsize=len(LineKind))
def find_colour(kind: LineKind) -> "Color":
    """Return the colour of a kind of line."""
    from reportlab.lib.colors import HexColor

    return HexColor(STYLES[kind])


def clip_strokes(
    strokes: Iterable[Stroke], window: PageWindow
) -> Iterator[tuple[Stroke, list[tuple[FloatArray, float]]]]:
    """Yield each stroke of which runs (k, 2), m, lie in a window, with them and how far along it each begins, m."""
    low, high = window.low - _RIM, window.low + np.array(window.size) + _RIM
    (west, south), (east, north) = low.tolist(), high.tolist()
    for stroke in strokes:
        (left, below), (right, above) = stroke.box
        if left >= west and below >= south and right <= east and above <= north:
            yield stroke, [(stroke.path, 0.0)]
        elif right >= west and above >= south and left <= east and below <= north:
            runs = list(_clip_path(stroke.path, low, high))
            if runs:
                yield stroke, runs


def _clip_path(path: FloatArray, low: FloatArray, high: FloatArray) -> Iterator[tuple[FloatArray, float]]:
    """Yield the runs of a path that lie in a box, and how far along it each begins, m."""
    starts, ways = path[:-1], np.diff(path, axis=0)
    reached = np.concatenate([[0.0], np.cumsum(np.hypot(*ways.T))])
    beside = (np.maximum(starts, path[1:]) < low) | (np.minimum(starts, path[1:]) > high)
    run: list[FloatArray] = []
    begins, last = 0.0, -1
    for number in np.flatnonzero(~beside.any(axis=1)).tolist():
        span = _clip_segment(starts[number], ways[number], low, high)
        if span is None:
            continue
        if run and (number > last + 1 or span[0] > 0.0):
            yield np.array(run), begins
            run = []
        if not run:
            run = [starts[number] + span[0] * ways[number]]
            begins = float(reached[number] + span[0] * (reached[number + 1] - reached[number]))
        run.append(starts[number] + span[1] * ways[number])
        last = number if span[1] == 1.0 else -2
    if run:
        yield np.array(run), begins


def _clip_segment(start: FloatArray, way: FloatArray, low: FloatArray, high: FloatArray) -> tuple[float, float] | None:
    """Return between which shares of its way a segment lies in a box; None if nowhere."""
    first, last = 0.0, 1.0
    for axis in (0, 1):
        if way[axis] == 0.0:
            if not low[axis] <= start[axis] <= high[axis]:
                return None
            continue
        ends = sorted(((low[axis] - start[axis]) / way[axis], (high[axis] - start[axis]) / way[axis]))
        first, last = max(first, float(ends[0])), min(last, float(ends[1]))
    first, last = (0.0 if first < _ROUND else first), (1.0 if last > 1.0 - _ROUND else last)  # it ends on the rim
    return (first, last) if first < last else None


def _to_page(points: FloatArray, window: PageWindow) -> FloatArray:
    """Return points of the plane in points of the page."""
    return np.asarray((points - window.low + np.array(window.place)) / POINT)


def _set_dash(canvas: "Canvas", kind: LineKind, reached: float) -> None:
    """Let dashes go on from sheet to sheet."""
    if kind in DASHES:
        dashes = [each / 1000 / POINT for each in DASHES[kind]]
        canvas.setDash(dashes, (reached / POINT) % sum(dashes))
    else:
        canvas.setDash()


def _draw_run(canvas: "Canvas", points: FloatArray) -> None:
    """Draw one line through points of the page."""
    path = canvas.beginPath()
    first, *others = points.tolist()
    path.moveTo(*first)
    for point in others:
        path.lineTo(*point)
    canvas.drawPath(path)


def _draw_captions(canvas: "Canvas", captions: Sequence[Lettering], window: PageWindow) -> None:
    """Write the words that reach into a window, cut off at its edge like lines: on glued sheets they go on."""
    low, size = window.low, np.array(window.size)
    canvas.saveState()
    corner, (across, up) = _to_page(low[None], window)[0].tolist(), (size / POINT).tolist()
    path = canvas.beginPath()
    path.rect(*corner, across, up)
    canvas.clipPath(path, stroke=0, fill=0)
    canvas.setFillColor("#000000")
    for caption in captions:
        turn = np.array(
            [[np.cos(caption.angle), np.sin(caption.angle)], [np.sin(caption.angle), np.cos(caption.angle)]]
        )
        reach = np.abs(turn) @ measure_words((caption.text,), caption.height)
        if (np.abs(caption.at - low - size / 2) < size / 2 + reach).all():
            _draw_caption(canvas, caption, window)
    canvas.restoreState()


def _draw_caption(canvas: "Canvas", caption: Lettering, window: PageWindow) -> None:
    """Write words whole."""
    canvas.saveState()
    canvas.translate(*_to_page(caption.at[None], window)[0].tolist())
    canvas.rotate(float(np.degrees(caption.angle)))
    canvas.setFont(FONT, caption.height / POINT / 0.72)
    canvas.drawCentredString(0, 0, caption.text)
    canvas.restoreState()
