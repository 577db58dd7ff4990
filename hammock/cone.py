r"""The cloth beyond a bar that is set in, as the cone that it is, and that cone laid flat.

Its sides lie along the legs and its edge along the trough of the cloth under the bar: straight lines from the apex A to
the trough e(t), t the distance along the flat edge of the body. A cone lies flat without stretch:

.. math:: \rho(t) = |e(t) - A|, \qquad
    \cos\Delta\varphi = \frac{\rho_i^2 + \rho_{i+1}^2 - \Delta t^2}{2 \rho_i \rho_{i+1}}

With legs of length L over a bar of length B, the apex lies :math:`R = \sqrt{L^2 - B^2/4}` before the bar; set in by s,
the cloth reaches :math:`a = s L / R` along each leg, and its far edge is the trough scaled by :math:`k = 1 - s / R`.
"""

from dataclasses import dataclass
from functools import cached_property, lru_cache
from math import cos, pi, radians, sin
from typing import NamedTuple

import numpy as np

from ..materials.short_repr import write_repr, write_value
from .arrays import FloatArray
from .chords import pick_vertices
from .hammock import HammockEnd
from .loaded_line import LoadedLine
from .side_view import reach_of_legs

_POINTS = 401  # along the trough
_NEAR = 1e-9  # m: vertices closer to an end of a stretch are left out
_SAMPLES = 4001  # across it, from which its length is taken
# Three demonstrations, solved under a spread weight and lying, both ends: the trough is 0.92 to 0.96 as deep as two
# straight lines would be, at half of the way to the corner 0.56 to 0.71 of that, and stands at 123 to 130 degrees to
# the plane of the legs. Engineering judgement between them; sides and far edge depend on neither.
_ROUNDNESS = 0.28
LEG_PLANE = radians(126)


class Trough(NamedTuple):
    """The cloth's line under a bar, and where the legs meet.

    Parameters
    ----------
    along : (n,)
        Distance along the flat edge of the body from the right corner, m.
    points : (n, 3)
        Where it hangs, m.
    apex : (3,)
        m.
    """

    along: FloatArray
    points: FloatArray
    apex: FloatArray


@dataclass(frozen=True)
class Cone:
    """An extension laid flat; x from the apex towards the bar, y to the left, zero in the middle.

    Parameters
    ----------
    along : (n,)
        Distance along the sewn edge from the right corner, m.
    distance : (n,)
        From the apex, m.
    angle : (n,)
        Flat polar angle about the apex, rad, from the middle to the left.
    scale : float
        Of the far edge to the sewn edge.
    """

    along: FloatArray
    distance: FloatArray
    angle: FloatArray
    scale: float

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{write_value(self.side, 'length')} along each leg",
            f"far edge {write_value(self.scale * self.width, 'length')}",
        )

    @property
    def width(self) -> float:
        """Length of the sewn edge, m."""
        return float(self.along[-1])

    @property
    def side(self) -> float:
        """Length along each leg, m: of the left one, where a solved trough is not even."""
        return float((1 - self.scale) * self.distance[-1])

    def place(self, along: FloatArray, share: FloatArray) -> FloatArray:
        """Return flat points (..., 2), m.

        Parameters
        ----------
        along : (...)
            Distance along the sewn edge from the right corner, m.
        share : (...)
            Of the way from the apex to the sewn edge: 1 on it, ``scale`` on the far edge.
        """
        x, y = (np.interp(along, self.along, column) for column in self.sewn.T)
        return np.asarray(np.stack([x, y], -1) * np.asarray(share)[..., None])

    def trace_sewn(self, start: float, end: float) -> FloatArray:
        """Return vertices (k, 2), m, of the sewn edge between two distances along it, both among them."""
        return self.place(self.list_along(start, end), np.array(1.0))

    def list_along(self, start: float, end: float) -> FloatArray:
        """Return where the vertices (k,) between two distances along the sewn edge lie, m, both among them."""
        inside = self.along[(self.along > start + _NEAR) & (self.along < end - _NEAR)]
        return np.concatenate([[start], inside, [end]])

    @cached_property
    def sewn(self) -> FloatArray:
        """Vertices of the sewn edge (n, 2), m, from the right corner."""
        return np.asarray(self.distance[:, None] * np.stack([np.cos(self.angle), np.sin(self.angle)], -1))

    @property
    def opening_angle(self) -> float:
        """Angle between both sides, rad."""
        return float(self.angle[-1] - self.angle[0])

    @cached_property
    def corner_angles(self) -> tuple[float, float]:
        """Angle between side and sewn edge at the right and at the left corner, rad."""
        found = []
        for corner, beside in ((self.sewn[0], self.sewn[1]), (self.sewn[-1], self.sewn[-2])):
            to_apex, to_edge = -corner, beside - corner
            turn = to_apex @ to_edge / np.hypot(*to_apex) / np.hypot(*to_edge)
            found.append(float(np.arccos(np.clip(turn, -1.0, 1.0))))
        return found[0], found[1]

    @property
    def turning(self) -> float:
        """By how much the sewn edge turns from corner to corner, rad: what darts must take in, in all."""
        return self.opening_angle + sum(self.corner_angles) - pi


def estimate_trough(end: HammockEnd) -> Trough:
    r"""Return the trough under a bar without solving: two lines that meet in a round bottom.

    It is as long as the cloth is wide. With y = 0 in the middle and 1 at a corner, and a roundness b, the depth is

    .. math:: d = D \left(1 - \frac{\sqrt{b^2 + y^2} - b}{\sqrt{b^2 + 1} - b}\right)

    Parameters
    ----------
    end : HammockEnd
        Bar, width and legs.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> head, _ = example_hammock().ends
    >>> trough = estimate_trough(head)
    >>> round(float(-trough.points[:, 2].min()), 3)  # m, how deep the cloth hangs under the bar
    0.375
    """
    from scipy.optimize import brentq

    across = np.linspace(-1.0, 1.0, _SAMPLES)
    rise = np.hypot(_ROUNDNESS, across) - _ROUNDNESS
    line = np.stack([across * end.bar.length / 2, rise / rise[-1] - 1], -1)

    def trace(depth: float) -> FloatArray:
        steps = np.hypot(*(np.diff(line, axis=0) * [1.0, depth]).T)
        return np.asarray(np.concatenate([[0.0], np.cumsum(steps)]))

    depth = float(brentq(lambda depth: trace(depth)[-1] - end.width, 0.0, end.width, xtol=1e-13))
    reached, along = trace(depth), np.linspace(0.0, end.width, _POINTS)
    side, height = (np.interp(along, reached, column) for column in line.T)
    points = np.stack([np.zeros_like(along), side, depth * height], -1)
    reach = reach_of_legs(end.leg_length, end.bar.length)
    return Trough(along, points, reach * np.array([-sin(LEG_PLANE), 0.0, -cos(LEG_PLANE)]))


def flatten_cone(trough: Trough, scale: float) -> Cone:
    """Return the cone from an apex to a trough, laid flat.

    Parameters
    ----------
    trough : Trough
        Estimated, or of a solved shape.
    scale : float
        Of the far edge to the sewn edge, 0 to 1.

    Raises
    ------
    ValueError
        For a trough that runs away from the apex faster than its cloth is long.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> head, _ = example_hammock().ends
    >>> cone = flatten_cone(estimate_trough(head), 0.6)
    >>> round(cone.width - head.width, 9), round(cone.side - 0.4 * head.leg_length, 9)
    (0.0, 0.0)
    """
    return _lay_flat(trough.along, np.linalg.norm(trough.points - trough.apex, axis=1), scale)


def _lay_flat(along: FloatArray, distance: FloatArray, scale: float) -> Cone:
    """Return a cone, its middle along the first axis."""
    angle = _unroll(along, distance)
    return Cone(along, distance, angle - angle[-1] / 2, scale)


def flatten_line(line: LoadedLine, scale: float) -> Cone:
    """Return the cone from an apex to a line that was solved, laid flat; smooth through all of its points.

    Parameters
    ----------
    line : LoadedLine
        Of the loaded cloth under a bar.
    scale : float
        Of the far edge to the sewn edge, 0 to 1.

    Raises
    ------
    ValueError
        As :func:`flatten_cone`.

    Examples
    --------
    >>> cone = flatten_line(LoadedLine((0.0, 0.3, 0.6, 0.9, 1.2), (0.7, 0.72, 0.85, 0.72, 0.7)), 0.6)
    >>> round(cone.width, 9), round(cone.side, 9), round(float(cone.distance.max()), 9)
    (1.2, 0.28, 0.85)
    """
    from scipy.interpolate import PchipInterpolator

    along = np.linspace(0.0, line.along[-1], _POINTS)
    return _lay_flat(along, PchipInterpolator(line.along, line.distance)(along), scale)


def _unroll(along: FloatArray, distance: FloatArray) -> FloatArray:
    """Return the flat polar angle (n,), rad, zero at the right, of points at distances from the apex, m."""
    near, far, steps = distance[:-1], distance[1:], np.diff(along)
    turns = (near**2 + far**2 - steps**2) / (2 * near * far)
    if (np.abs(np.diff(distance)) > steps).any():
        raise ValueError("the cloth under the bar is stretched so much that its extension cannot be laid flat.")
    return np.concatenate([[0.0], np.cumsum(np.arccos(np.clip(turns, -1.0, 1.0)))])


def resample_cone(cone: Cone, along: FloatArray) -> Cone:
    """Return a cone of fewer flat triangles, each as wide at the sewn edge as the edge is long between its rulings.

    Parameters
    ----------
    cone : Cone
        Laid flat.
    along : (n,)
        Where rulings stay, m along the sewn edge, the middle among them; of half a cone the left ones.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> head, _ = example_hammock().ends
    >>> coarse = resample_cone(flatten_cone(estimate_trough(head), 0.6), np.linspace(0.0, head.width, 9))
    >>> np.hypot(*np.diff(coarse.sewn, axis=0).T).round(9).tolist() == [round(head.width / 8, 9)] * 8
    True
    """
    distance = np.interp(along, cone.along, cone.distance)
    angle, middle = _unroll(along, distance), cone.along[-1] / 2
    return Cone(along, distance, angle - np.interp(middle, along, angle), cone.scale)


def find_scale(end: HammockEnd) -> float:
    """Return how wide the far edge is compared with the sewn edge: 1 of a bar that is not set in."""
    return 1 - end.bar.set_in / reach_of_legs(end.leg_length, end.bar.length)


@lru_cache(maxsize=64)
def draw_cone(end: HammockEnd) -> Cone:
    """Return the extension at one end laid flat, cut to the solved line under its bar if it has one, else estimated.

    Kept, since every model of the same hammock asks for it several times; its arrays are not to be written to.

    Parameters
    ----------
    end : HammockEnd
        One whose bar is set in.
    """
    line, scale = end.bar.extension.line, find_scale(end)
    cone = flatten_cone(estimate_trough(end), scale) if line is None else flatten_line(line, scale)
    return _protect(cone)


@lru_cache(maxsize=64)
def draw_cut_cone(end: HammockEnd) -> Cone:
    """Return the extension at one end as it is cut: flat between as few rulings as show its edges.

    Sewn and far edge stay as long as they are. Kept, as :func:`draw_cone`.

    Parameters
    ----------
    end : HammockEnd
        One whose bar is set in.
    """
    cone = draw_cone(end)
    kept = pick_vertices(cone.sewn)
    return _protect(_lay_flat(cone.along[kept], cone.distance[kept], cone.scale))


def _protect(cone: Cone) -> Cone:
    """Return a cone whose arrays cannot be written to."""
    for shared in (cone.along, cone.distance, cone.angle):
        shared.setflags(write=False)
    return cone
