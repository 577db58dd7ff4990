"""Flat bodies of two designs over each other, as points of a drawing."""

from typing import NamedTuple

import numpy as np

from ...cases.design import Design
from ...cases.design_geometry import trace_design

SCALE = 100.0  # units of the drawing to a metre
_ROOM = 12.0  # round both, units of the drawing


class FlatOutline(NamedTuple):
    """One design in a drawing, its head on the left.

    Parameters
    ----------
    cloth : str
        Points of the flat body.
    bars : tuple of (x, y from, y to)
        Head and foot bar.
    """

    cloth: str
    bars: tuple[tuple[float, float, float], ...]


class OverlayView(NamedTuple):
    """Left, top, width and height of a drawing that shows both."""

    left: float
    top: float
    width: float
    height: float

    @property
    def box(self) -> str:
        """As a drawing states it."""
        return f"{self.left:.1f} {self.top:.1f} {self.width:.1f} {self.height:.1f}"


def outline_design(design: Design) -> FlatOutline:
    """Return the flat body and both bars of a design.

    Parameters
    ----------
    design : Design
        It need not be solved.
    """
    found, body = trace_design(design), design.hammock.body
    x = np.concatenate([found.stations, found.stations[::-1]]) * SCALE
    y = -np.concatenate([found.left, found.right[::-1]]) * SCALE
    places = ((0.0, design.hammock.head_bar), (body.length, design.hammock.foot_bar))
    bars = tuple((SCALE * at, -SCALE * bar.length / 2, SCALE * bar.length / 2) for at, bar in places)
    return FlatOutline(" ".join(f"{a:.1f},{b:.1f}" for a, b in zip(x, y, strict=True)), bars)


def frame_designs(*designs: Design) -> OverlayView:
    """Return the part of a drawing in which all of some designs can be seen."""
    bodies = [each.hammock for each in designs]
    length = max(each.body.length for each in bodies) * SCALE
    widths = [(each.body.head_width, each.body.foot_width, each.head_bar.length) for each in bodies]
    half = max(map(max, widths)) / 2 * SCALE
    return OverlayView(-_ROOM, -half - _ROOM, length + 2 * _ROOM, 2 * (half + _ROOM))
