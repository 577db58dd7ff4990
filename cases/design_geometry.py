"""The geometry of a design that is not solved: its flat edges, and how it would hang."""

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from ..hammock.arrays import FloatArray
from ..hammock.outline import draw_outline
from ..hammock.side_view import hang_hammock
from .design import Design

_POINTS = 200


class DesignGeometry(NamedTuple):
    """What is drawn of a design.

    Parameters
    ----------
    stations, left, right : (n,)
        From the head bar, and the y of both edges there, m; an odd number of points, so that one is half-way.
    side : (k, 2)
        The side cords in side view, x from the middle of the trees and height, m.
    ropes : mapping of str to (3, 2)
        At head and foot: tree, apex and bar in side view, m.
    angles : mapping of str to float
        Of the lines above the horizontal, rad.
    tree_distance : float
        m.
    """

    stations: FloatArray
    left: FloatArray
    right: FloatArray
    side: FloatArray
    ropes: Mapping[str, FloatArray]
    angles: Mapping[str, float]
    tree_distance: float

    def __repr__(self) -> str:
        return f"DesignGeometry({len(self.stations)} stations, trees {self.tree_distance:.3g} m apart)"


def trace_design(design: Design) -> DesignGeometry:
    """Return the flat edges of a design and its hang as estimated before solving.

    Parameters
    ----------
    design : Design
        From ``read_design``.

    Examples
    --------
    >>> from importlib.resources import files
    >>> from tautlay.cases import read_design
    >>> found = trace_design(read_design(files("tautlay.cases") / "larch_ridge.toml"))
    >>> found.left[0].round(3), found.ropes["head"].shape
    (np.float64(0.6), (3, 2))
    """
    body, outline, hang = design.hammock.body, draw_outline(design.hammock.body), hang_hammock(design.hammock)
    stations = np.linspace(0.0, body.length, _POINTS + 1)
    side = np.column_stack(hang.trace_body(np.linspace(0.0, hang.length, _POINTS)))
    ropes = {}
    for end, bar in (("head", side[0]), ("foot", side[-1])):
        line = design.hammock.suspension.pick(end).line_length
        ropes[end] = np.array([*(hang.trace_rope(head=end == "head", distance=each) for each in (0.0, line)), bar])
    angles = {"head": hang.head_angle, "foot": hang.foot_angle}
    left, right = outline.left.place(stations), outline.right.place(stations)
    return DesignGeometry(stations, left, right, side, ropes, angles, hang.tree_distance)
