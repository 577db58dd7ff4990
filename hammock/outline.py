"""Flat shape of the body: its two cut edges, widths and lengths.

Flat coordinates: x from the head bar (0) to the foot bar (length), y to the occupant's left, zero on the
line through the middles of both bars.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ..materials.short_repr import write_repr, write_value
from .arrays import FloatArray
from .edge_curve import EdgeCurve, fit_curve
from .hammock import Body

_GAUSS_POINTS, _GAUSS_WEIGHTS = np.polynomial.legendre.leggauss(12)
_PANELS = 64


@dataclass(frozen=True)
class Edge:
    """One cut long side.

    Parameters
    ----------
    curve : EdgeCurve
        Height over the head corner, outward positive.
    span : float
        Length of the body, m.
    half_width : float
        Distance of the head corner from the middle, m.
    side : int
        +1 left, -1 right.
    """

    curve: EdgeCurve
    span: float
    half_width: float
    side: int

    def __repr__(self) -> str:
        return write_repr(self, "left" if self.side > 0 else "right", f"span {write_value(self.span, 'length')}")

    def place(self, x: FloatArray) -> FloatArray:
        """Return y, m, of the edge at ``x`` (any shape), m."""
        return self.side * (self.half_width + self.curve.height(x))

    def arc_lengths(self, stations: FloatArray) -> FloatArray:
        """Return the length of the curve (k,), m, between each two of ``stations`` (k + 1,), m.

        Gauss quadrature with 12 points between stations: exact to round-off where stations are close
        compared with the radius of the curve.
        """
        half = np.diff(stations) / 2
        x = stations[:-1, None] + half[:, None] * (1 + _GAUSS_POINTS)
        return np.asarray(half * (np.hypot(1.0, self.curve.slope(x)) @ _GAUSS_WEIGHTS))

    @cached_property
    def length(self) -> float:
        """Length of the edge along the curve from corner to corner, m."""
        return float(self.arc_lengths(np.linspace(0, self.span, _PANELS + 1)).sum())

    @property
    def chord(self) -> float:
        """Straight distance from corner to corner, m."""
        return float(np.hypot(self.span, self.curve.height(np.array(self.span))))

    def find_station(self, distance: float) -> float:
        """Return x, m, of the point ``distance`` metres along the edge from the head corner."""
        from scipy.optimize import brentq

        if not 0 <= distance <= self.length:
            raise ValueError(f"distance must lie on the edge, 0 to {self.length:.4f} m, got {distance}.")

        def miss(x: float) -> float:
            return float(self.arc_lengths(np.linspace(0, x, _PANELS + 1)).sum()) - distance

        if miss(self.span) <= 0:  # the far corner itself, give or take round-off
            return self.span
        return float(brentq(miss, 0, self.span, xtol=1e-14))


@dataclass(frozen=True)
class Outline:
    """Flat body between the bars.

    Parameters
    ----------
    length : float
        From bar to bar, m.
    left, right : Edge
        The two cut sides.
    """

    length: float
    left: Edge
    right: Edge

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{write_value(self.length, 'length')} long",
            f"{write_value(2 * self.left.half_width, 'length')} wide at the head",
        )

    def pick_edge(self, side: str) -> Edge:
        """Return the edge on the ``left`` or on the ``right``."""
        return self.left if side == "left" else self.right

    def width(self, x: FloatArray) -> FloatArray:
        """Return the width of the cloth, m, at ``x`` (any shape), m."""
        return self.left.place(x) - self.right.place(x)

    def middle(self, x: FloatArray) -> FloatArray:
        """Return y, m, half-way between the edges at ``x`` (any shape), m."""
        return (self.left.place(x) + self.right.place(x)) / 2

    @cached_property
    def waist(self) -> tuple[float, float]:
        """Where the body is narrowest, m from the head bar (to 1/1000 of its length), and its width there, m."""
        x = np.linspace(0, self.length, 1001)
        widths = self.width(x)
        least = int(np.argmin(widths))
        return float(x[least]), float(widths[least])

    @cached_property
    def area(self) -> float:
        """Area between the bars, m2."""
        half = self.length / _PANELS / 2
        x = half * (2 * np.arange(_PANELS)[:, None] + 1 + _GAUSS_POINTS)
        return float(half * (self.width(x) @ _GAUSS_WEIGHTS).sum())


def draw_outline(body: Body) -> Outline:
    """Return the flat outline of ``body``.

    Raises
    ------
    ValueError
        For a circular arc too deep for its length.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> outline = draw_outline(example_hammock().body)
    >>> x, width = outline.waist
    >>> round(x, 3), round(width, 3)
    (1.026, 0.76)
    """
    rise = (body.foot_width - body.head_width) / 2
    left, right = (
        Edge(fit_curve(arc, body.length, rise), body.length, body.head_width / 2, side)
        for arc, side in ((body.left_arc, 1), (body.right_arc, -1))
    )
    return Outline(body.length, left, right)
