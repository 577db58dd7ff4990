"""A view brought to a sheet 360 units wide, its sizes numbered so that no number lies on another or on words."""

from collections.abc import Iterable, Iterator
from itertools import product
from math import cos, hypot, pi, sin
from typing import NamedTuple

import numpy as np

from ...cases.storage.shape import FloatArray
from .measured_view import MeasuredView, Spot, ViewLine, ViewSpan

WIDTH = 360.0  # of every drawing, in its own units: text of 11 is then read on a telephone
RADIUS = 9.0  # of the ring round a number
LETTER, LINE = 6.4, 16.0  # widest mean width of a letter, and from one line of words to the next
_MARGIN, _HIGHEST = 20.0, 250.0  # around what is drawn, and the most that it is high
_APART = 2 * RADIUS + 3.0  # from one number to the next
_SHARES = (0.5, 0.35, 0.65, 0.2, 0.8)  # of a span, where its number may stand
_FURTHER = tuple(_APART * step for step in (1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 9.0, 13.0))  # beside it
_TURNS = tuple(pi * step / 6 for step in range(12))

Box = tuple[float, float, float, float]


class Balloon(NamedTuple):
    """The number of sizes, where it stands, and the spot it belongs to if that is beside it."""

    at: Spot
    number: int
    spot: Spot | None


class PlacedView(NamedTuple):
    """What is drawn, on a sheet with y downwards.

    Parameters
    ----------
    width, height : float
        Of the sheet.
    lines : tuple of ViewLine
        As drawn.
    words : tuple of (x, y, str)
        Each centred at its spot.
    arrows : tuple of (start, end)
        From where to where sizes run.
    balloons : tuple of Balloon
        One for each arrow and each spot that is pointed at.
    """

    width: float
    height: float
    lines: tuple[ViewLine, ...]
    words: tuple[tuple[Spot, str], ...]
    arrows: tuple[tuple[Spot, Spot], ...]
    balloons: tuple[Balloon, ...]

    def __repr__(self) -> str:
        return f"PlacedView({self.width:g} x {self.height:.0f}, {len(self.balloons)} numbers)"


def number_keys(view: MeasuredView) -> dict[tuple[str, ...], int]:
    """Return the number of the sizes of each span, from 1; spans of the same sizes share it."""
    return {keys: number for number, keys in enumerate(dict.fromkeys(span.keys for span in view.spans), 1)}


def place_view(view: MeasuredView) -> PlacedView:
    """Return a view on its sheet.

    Parameters
    ----------
    view : MeasuredView
        With at least one line.

    Returns
    -------
    PlacedView
        In one scale across and up; numbers stand in the middle of their arrows where there is room, else beside them.

    Examples
    --------
    >>> from tautlay.cases.written_sizes import WrittenSize
    >>> view = MeasuredView("a", "A", {"a.b": WrittenSize("a.b", 2.0, "length")})
    >>> view.draw([(0, 0), (2, 0)], "edge")
    >>> view.measure((0, 1), (2, 1), "a.b")
    >>> place_view(view).balloons[0].number
    1
    """
    low, scale, high = _fit(view)
    shift = (WIDTH - scale * (high[0] - low[0])) / 2

    def bring(points: FloatArray) -> FloatArray:
        x = shift + scale * (points[..., 0] - low[0])
        return np.stack([x, _MARGIN + scale * (high[1] - points[..., 1])], -1)

    def bring_spot(spot: Spot) -> Spot:
        x, y = bring(np.asarray(spot))
        return float(x), float(y)

    lines = tuple(ViewLine(bring(line.points), line.kind, line.closed) for line in view.lines)
    words = tuple((_keep_inside(bring_spot(each.at), each.text), each.text) for each in view.words)
    spans = [ViewSpan(bring_spot(span.start), bring_spot(span.end), span.keys) for span in view.spans]
    balloons = tuple(_place_numbers(spans, number_keys(view), [_find_box(*each) for each in words]))
    lowest = [*(each.at[1] + RADIUS for each in balloons), *(at[1] + LINE / 2 for at, _ in words)]
    bottom = max([scale * (high[1] - low[1]) + _MARGIN, *lowest])
    arrows = tuple((span.start, span.end) for span in spans if span.start != span.end)
    return PlacedView(WIDTH, bottom + 8.0, lines, words, arrows, balloons)


def _fit(view: MeasuredView) -> tuple[FloatArray, float, FloatArray]:
    """Return the lower corner of a view, the scale that brings it to its sheet, and the upper corner."""
    spots = np.array([spot for span in view.spans for spot in (span.start, span.end)]).reshape(-1, 2)
    points = np.concatenate([*(line.points for line in view.lines), spots, *([each.at] for each in view.words)])
    low, high = points.min(axis=0), points.max(axis=0)
    across, up = high - low
    return low, float(min((WIDTH - 2 * _MARGIN) / across, _HIGHEST / max(up, 1e-9))), high


def _keep_inside(at: Spot, text: str) -> Spot:
    """Return where words stand so that none of them leaves the sheet."""
    half = LETTER * len(text) / 2 + 2.0
    return min(max(at[0], half), WIDTH - half), at[1]


def _find_box(at: Spot, text: str) -> Box:
    """Return the box of words centred at a spot: left, top, right, bottom."""
    half = LETTER * len(text) / 2
    return at[0] - half, at[1] - LINE / 2, at[0] + half, at[1] + LINE / 2


def _place_numbers(
    spans: Iterable[ViewSpan], numbers: dict[tuple[str, ...], int], boxes: list[Box]
) -> Iterator[Balloon]:
    """Yield the number of each span, the first place that is free."""
    taken: list[Spot] = []
    for span in spans:
        at, beside = next(each for each in _list_places(span) if _is_free(each[0], taken, boxes))
        taken.append(at)
        yield Balloon(at, numbers[span.keys], beside)


def _list_places(span: ViewSpan) -> Iterator[tuple[Spot, Spot | None]]:
    """Yield where a number may stand, the best first, with the spot that a line leads to."""
    (x, y), (right, top) = span.start, span.end
    length = hypot(right - x, top - y)
    if length > 2.2 * _APART:
        yield from (((x + share * (right - x), y + share * (top - y)), None) for share in _SHARES)
    middle = (x + right) / 2, (y + top) / 2
    start = np.arctan2(top - y, right - x) + pi / 2 if length else pi / 3
    for away, turn in product(_FURTHER, _TURNS):
        angle = start + turn
        yield (middle[0] + away * cos(angle), middle[1] - away * sin(angle)), middle


def _is_free(at: Spot, taken: list[Spot], boxes: list[Box]) -> bool:
    """Whether a number has room at a spot, inside the sheet, clear of other numbers and of words."""
    x, y = at
    if not (RADIUS + 1 <= x <= WIDTH - RADIUS - 1) or y < RADIUS + 1:
        return False
    if any(hypot(x - other[0], y - other[1]) < _APART for other in taken):
        return False
    return not any(
        left - RADIUS < x < right + RADIUS and high - RADIUS < y < low + RADIUS for left, high, right, low in boxes
    )
