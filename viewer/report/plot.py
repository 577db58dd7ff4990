"""Plots as SVG: a frame with axes in both systems of units, and what is drawn in it."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

import numpy as np
from markupsafe import Markup, escape

from ...cases.storage.shape import FloatArray
from ...cases.unit_display import SYSTEMS, choose_unit
from ..scale import list_ticks
from ..svg_path import trace_path

WIDTH = 360.0  # of every plot, in its own units: text of 11 is then read on a telephone
LEFT, RIGHT, TOP, BOTTOM = 46.0, 12.0, 12.0, 40.0
AxisLimits = tuple[float, float]


class Axis(NamedTuple):
    """What an axis shows: its title, dimension and limits, SI; without a title there are no marks either."""

    title: str
    dimension: str
    limits: AxisLimits


class Frame(NamedTuple):
    """The place of a plot on its sheet of ``WIDTH`` times ``height``."""

    across: Axis
    up: Axis
    height: float

    def place(self, points: FloatArray) -> FloatArray:
        """Return where points (..., 2), SI, lie on the sheet."""
        (left, right), (low, high) = self.across.limits, self.up.limits
        x = LEFT + (points[..., 0] - left) / (right - left) * (WIDTH - LEFT - RIGHT)
        y = self.height - BOTTOM - (points[..., 1] - low) / (high - low) * (self.height - TOP - BOTTOM)
        return np.stack([x, y], -1)


def frame_alike(points: FloatArray, titles: tuple[str, str], room: float = 0.05) -> Frame:
    """Return a frame in which lengths across and up have one scale.

    Parameters
    ----------
    points : (n, 2)
        What must be inside, m.
    titles : (str, str)
        Of the axis across and up.
    room : float
        Left free around, m.
    """
    low, high = points.min(axis=0) - room, points.max(axis=0) + room
    height = TOP + BOTTOM + (WIDTH - LEFT - RIGHT) * float((high[1] - low[1]) / (high[0] - low[0]))
    across, up = (
        Axis(title, "length", (float(first), float(last))) for title, first, last in zip(titles, low, high, strict=True)
    )
    return Frame(across, up, height)


def draw_path(frame: Frame, points: FloatArray, kind: str, *, closed: bool = False) -> Markup:
    """Return a line through points (n, 2), SI; ``kind`` is its class in the style sheet."""
    return Markup('<path class="{}" d="{}"/>').format(kind, trace_path(frame.place(points), closed=closed))


def draw_text(frame: Frame, at: Sequence[float], text: str | Markup, kind: str = "") -> Markup:
    """Return words at a point (2,), SI; ``kind`` is their class in the style sheet."""
    x, y = frame.place(np.array(at, dtype=np.float64))
    return Markup('<text x="{:.5g}" y="{:.5g}" class="{}">{}</text>').format(x, y, kind, text)


def draw_plot(frame: Frame, title: str, parts: Iterable[Markup]) -> Markup:
    """Return a whole plot.

    Parameters
    ----------
    frame : Frame
        Its axes.
    title : str
        What a screen reader says.
    parts : iterable of Markup
        What is drawn in it, from below to above.

    Returns
    -------
    Markup
        An ``svg`` element.
    """
    body = Markup("").join([*_draw_axes(frame), *parts])
    return Markup(
        '<svg class="plot" viewBox="0 0 {:g} {:.5g}" role="img" aria-label="{}">{}</svg>'
    ).format(WIDTH, frame.height, title, body)  # fmt: skip


def _draw_axes(frame: Frame) -> Iterable[Markup]:
    """Yield the frame, and marks and titles for each system of units."""
    right, low = WIDTH - RIGHT, frame.height - BOTTOM
    box = '<rect class="box" x="{:g}" y="{:g}" width="{:g}" height="{:.5g}"/>'
    yield Markup(box).format(LEFT, TOP, right - LEFT, low - TOP)
    for system in SYSTEMS:
        marks = [*_mark_across(frame, system, low), *(_mark_up(frame, system, right) if frame.up.title else ())]
        yield Markup('<g class="q-{}">{}</g>').format(system[0], Markup("").join(marks))


def _mark_across(frame: Frame, system: str, low: float) -> Iterable[Markup]:
    """Yield marks and title below the frame."""
    unit, ticks = _list_marks(frame.across, system)
    for value, words in ticks:
        x = float(frame.place(np.array([value, 0.0]))[0])
        yield Markup('<path class="tick" d="M{:.5g},{:g}V{:g}"/>').format(x, TOP, low)
        yield Markup('<text class="mark" x="{:.5g}" y="{:.5g}">{}</text>').format(x, low + 13, words)
    middle, title = (LEFT + WIDTH - RIGHT) / 2, _title(frame.across, unit)
    yield Markup('<text class="mark" x="{:g}" y="{:.5g}">{}</text>').format(middle, low + 30, title)


def _mark_up(frame: Frame, system: str, right: float) -> Iterable[Markup]:
    """Yield marks and title beside the frame."""
    unit, ticks = _list_marks(frame.up, system)
    for value, words in ticks:
        y = float(frame.place(np.array([0.0, value]))[1])
        yield Markup('<path class="tick" d="M{:g},{:.5g}H{:g}"/>').format(LEFT, y, right)
        yield Markup('<text class="level" x="{:g}" y="{:.5g}">{}</text>').format(LEFT - 4, y + 4, words)
    turned = '<text class="mark" transform="translate(11 {:.5g}) rotate(-90)">{}</text>'
    middle = (TOP + frame.height - BOTTOM) / 2
    yield Markup(turned).format(middle, _title(frame.up, unit))


def _list_marks(axis: Axis, system: str) -> tuple[str, list[tuple[float, str]]]:
    """Return the unit of an axis and its round numbers with their SI values."""
    unit = choose_unit(max(map(abs, axis.limits)), axis.dimension, "metric" if system == "metric" else "imperial")
    ticks = list_ticks(axis.limits[0] / unit.factor, axis.limits[1] / unit.factor)
    return unit.name, [(tick * unit.factor, f"{tick:g}") for tick in ticks]


def _title(axis: Axis, unit: str) -> Markup:
    """Return the title of an axis with its unit."""
    return escape(f"{axis.title}, {unit}" if unit else axis.title)
