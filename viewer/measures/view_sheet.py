"""A view with heading, note and list as paths, rings and words: what both a file of SVG and a picture are made from."""

from collections.abc import Callable, Iterator, Sequence
from math import hypot
from typing import NamedTuple

import numpy as np

from ...cases.storage.shape import FloatArray
from .measured_view import MeasuredView, Spot
from .placed_view import LINE, WIDTH, PlacedView, place_view
from .size_row import SizeRow, list_rows, wrap_note

TITLE_HEIGHT = 20.0
_HEAD = 3.2  # half the width of an arrow's head
_EDGE = 4.0  # left free beside words


class SheetPath(NamedTuple):
    """A line or an area, y downwards; its kind is one of ``KIND_STYLES``."""

    points: FloatArray
    kind: str
    closed: bool


class SheetText(NamedTuple):
    """Words whose baseline stands at a spot; their kind is one of ``TEXT_STYLES``."""

    at: Spot
    text: str
    kind: str


class SheetRing(NamedTuple):
    """The ring round a number."""

    middle: Spot


class ViewSheet(NamedTuple):
    """A view with its list, from (0, 0) downwards; what comes later lies above."""

    name: str
    title: str
    height: float
    parts: tuple[SheetPath | SheetText | SheetRing, ...]

    def __repr__(self) -> str:
        return f"ViewSheet({self.name}, {self.height:.0f} high)"


def lay_out_view(view: MeasuredView, write: Callable[[SizeRow], str]) -> ViewSheet:
    """Return a view with its heading above, its note and its sizes by number below.

    Parameters
    ----------
    view : MeasuredView
        With sizes.
    write : callable
        Returns the value of a row as it is to stand there.
    """
    placed = place_view(view)
    parts = [SheetText((_EDGE, 13.0), view.title, "title"), *_list_parts(placed)]
    y = TITLE_HEIGHT + placed.height + LINE
    for line in wrap_note(view):
        parts.append(SheetText((_EDGE, y), line, "note"))
        y += LINE
    y += 4.0 if view.note else 0.0
    for row in list_rows(view):
        if row.number is not None:
            parts += _list_number((13.0, y - 4.0), row.number)
        parts.append(SheetText((26.0, y), row.key, "key"))
        y += LINE * (row.lines - 1)
        parts.append(SheetText((WIDTH - _EDGE, y), write(row), "value"))
        y += LINE + 3.0
    return ViewSheet(view.name, view.title, y, tuple(parts))


def arrange_sheets(sheets: Sequence[ViewSheet], between: float) -> Iterator[tuple[Spot, ViewSheet]]:
    """Yield where each sheet stands in two columns, the next always in the shorter one.

    Examples
    --------
    >>> sheets = [ViewSheet("a", "A", 50.0, ()), ViewSheet("b", "B", 20.0, ()), ViewSheet("c", "C", 20.0, ())]
    >>> [place for place, _ in arrange_sheets(sheets, 10.0)]
    [(0.0, 0.0), (370.0, 0.0), (370.0, 30.0)]
    """
    columns = [0.0, 0.0]
    for sheet in sheets:
        side = 0 if columns[0] <= columns[1] else 1
        yield (side * (WIDTH + between), columns[side]), sheet
        columns[side] += sheet.height + between


def _list_parts(placed: PlacedView) -> Iterator[SheetPath | SheetText | SheetRing]:
    """Yield what is drawn of a view below its heading, its numbers uppermost."""
    down = np.array([0.0, TITLE_HEIGHT])
    for line in placed.lines:
        yield SheetPath(line.points + down, line.kind, line.closed)
    for at, text in placed.words:
        yield SheetText((at[0], at[1] + TITLE_HEIGHT + 4.0), text, "word")
    for start, end in placed.arrows:
        yield from (SheetPath(points + down, "arrow", False) for points in _trace_arrow(start, end))
    for balloon in placed.balloons:
        if balloon.spot is not None:
            yield SheetPath(np.array([balloon.at, balloon.spot]) + down, "leader", False)
    for balloon in placed.balloons:
        yield from _list_number((balloon.at[0], balloon.at[1] + TITLE_HEIGHT), balloon.number)


def _list_number(at: Spot, number: int) -> tuple[SheetRing, SheetText]:
    """Return a number in its ring."""
    return SheetRing(at), SheetText((at[0], at[1] + 3.6), str(number), "number")


def _trace_arrow(start: Spot, end: Spot) -> Iterator[FloatArray]:
    """Yield a line and its heads at both ends; a short one has none."""
    yield np.array([start, end])
    length = hypot(end[0] - start[0], end[1] - start[1])
    if length > 5 * _HEAD:
        along = _HEAD / length * (np.array(end) - np.array(start))
        across = np.array([-along[1], along[0]])
        for at, way in ((start, 1.0), (end, -1.0)):
            back = np.array(at) + 2.2 * way * along
            yield np.array([back + across, at, back - across])
