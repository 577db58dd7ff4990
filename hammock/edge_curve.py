"""Curves to which a long side is cut: parabola, circle and catenary through two corners.

All are written in the frame of the left side: from (0, 0) at the head corner to (span, rise) at the
foot corner, convex, and ``depth`` below the chord at half the span. Differences are formed as products,
so that a very shallow arc keeps its digits.
"""

from dataclasses import dataclass
from typing import Protocol

import numpy as np

from ..materials import make_sentence
from .arrays import FloatArray
from .hammock import Arc, ArcShape


class EdgeCurve(Protocol):
    """Height and slope of a curve over the distance x (any shape, m) from the head corner."""

    def height(self, x: FloatArray) -> FloatArray:
        """Return the height over the head corner, m."""

    def slope(self, x: FloatArray) -> FloatArray:
        """Return the change of height per length, 1."""


@dataclass(frozen=True)
class ParabolaCurve:
    r"""Parabola :math:`y = h\,x/L - 4d\,(x/L)(1-x/L)`; with no depth the chord itself."""

    span: float
    rise: float
    depth: float

    def height(self, x: FloatArray) -> FloatArray:
        """Return the height over the head corner, m."""
        s = x / self.span
        return self.rise * s - 4 * self.depth * s * (1 - s)

    def slope(self, x: FloatArray) -> FloatArray:
        """Return the change of height per length, 1."""
        return (self.rise - 4 * self.depth * (1 - 2 * x / self.span)) / self.span


@dataclass(frozen=True)
class CircleCurve:
    r"""Circle with centre :math:`(x_c, y_c)` through both corners and the point at mid-span.

    Height :math:`x\,(x-2x_c)/(y_c+\sqrt{R^2-(x-x_c)^2})`, which is the lower branch.
    """

    centre_x: float
    centre_y: float

    def height(self, x: FloatArray) -> FloatArray:
        """Return the height over the head corner, m."""
        return np.asarray(x * (x - 2 * self.centre_x) / (self.centre_y + self._drop(x)))

    def slope(self, x: FloatArray) -> FloatArray:
        """Return the change of height per length, 1."""
        return np.asarray((x - self.centre_x) / self._drop(x))

    def _drop(self, x: FloatArray) -> FloatArray:
        """Return the height of the centre over the curve, m."""
        return np.sqrt(self.centre_y**2 - x * (x - 2 * self.centre_x))


@dataclass(frozen=True)
class CatenaryCurve:
    r"""Catenary :math:`y = a\cosh((x-x_0)/a) + c` with parameter a and lowest point :math:`x_0`."""

    parameter: float
    lowest: float

    def height(self, x: FloatArray) -> FloatArray:
        """Return the height over the head corner, m."""
        a = self.parameter
        return np.asarray(2 * a * np.sinh(x / (2 * a)) * np.sinh((x - 2 * self.lowest) / (2 * a)))

    def slope(self, x: FloatArray) -> FloatArray:
        """Return the change of height per length, 1."""
        return np.sinh((x - self.lowest) / self.parameter)


def fit_curve(arc: Arc, span: float, rise: float) -> EdgeCurve:
    """Return the curve of ``arc`` from (0, 0) to (span, rise).

    Parameters
    ----------
    arc : Arc
        Depth below the chord at mid-span, m, and shape.
    span, rise : float
        Foot corner as seen from the head corner, m.

    Returns
    -------
    EdgeCurve
        A parabola for a straight edge.

    Raises
    ------
    ValueError
        For a circle so deep that it turns back under one of its corners.

    Examples
    --------
    >>> curve = fit_curve(Arc(0.15, ArcShape.CIRCLE), 2.0, 0.0)
    >>> curve.height(np.array([0.5, 1.0, 1.5])).round(6).tolist()
    [-0.113126, -0.15, -0.113126]
    """
    if arc.depth < 1e-12 * span or arc.shape is ArcShape.PARABOLA:
        return ParabolaCurve(span, rise, arc.depth)
    if arc.shape is ArcShape.CIRCLE:
        return _fit_circle(arc.depth, span, rise)
    return _fit_catenary(arc.depth, span, rise)


def _fit_circle(depth: float, span: float, rise: float) -> CircleCurve:
    """Return the circle; both corners must lie on its lower branch."""
    centre_y = (span**2 + rise**2) / (8 * depth) + (rise - depth) / 2
    centre_x = (span**2 + rise**2 - 2 * centre_y * rise) / (2 * span)
    if min(centre_y, centre_y - rise) <= 0:
        raise ValueError(
            make_sentence(
                "A circular arc {depth:length} deep over {span:length} turns back under its corners. "
                "Keep its depth under {most:length} or choose a parabola.",
                depth=depth,
                span=span,
                most=(span - abs(rise)) / 2,
            )
        )
    return CircleCurve(centre_x, centre_y)


def _fit_catenary(depth: float, span: float, rise: float) -> CatenaryCurve:
    r"""Return the catenary.

    With :math:`p = L/2a` the corners give :math:`\sinh m = h p/(L\sinh p)`, :math:`m = (L/2-x_0)/a`, and
    the depth at mid-span is :math:`(L/p)\cosh m\,\sinh^2(p/2)`, which grows with p.
    """
    from scipy.optimize import brentq

    def lean(p: float) -> float:
        return float(np.arcsinh(rise * p / (span * np.sinh(p))))

    def miss(p: float) -> float:
        return float(span / p * np.cosh(lean(p)) * np.sinh(p / 2) ** 2 - depth)

    high = 1.0
    while miss(high) < 0:
        high *= 2
    p = brentq(miss, 1e-15, high, xtol=1e-300, rtol=4 * np.finfo(float).eps)
    a = span / (2 * p)
    return CatenaryCurve(a, span / 2 - a * lean(p))
