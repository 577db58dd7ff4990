r"""An extension that runs on from the body: flat facets between darts, each on a straight stretch of the bar line.

Body and extension are one piece, whose bar line is straight where the cone's sewn edge turns by K. Darts from the bar
line to the far edge take in that turning. Between two of them lies a facet: its base a stretch of the bar line, its
sides as long as the cone's rays there, its far edge the cone's own, so that the darts' edges are equal in pairs and the
far edge, darts closed, is that of an extension that is sewn on.
"""

import itertools
from dataclasses import dataclass
from functools import cached_property
from math import pi

import numpy as np

from ..materials.short_repr import write_repr, write_value
from .arrays import FloatArray
from .cone import Cone


@dataclass(frozen=True)
class Facet:
    """One facet; the first coordinate runs along the bar line from the right corner, the second away from the body.

    Parameters
    ----------
    base : tuple of float
        Where it begins and ends on the bar line, m.
    first, last : float
        Angle between bar line and its right, and its left, side, inside, rad.
    far : (n, 2)
        Vertices of its far edge from the right, m.
    """

    base: tuple[float, float]
    first: float
    last: float
    far: FloatArray

    def __repr__(self) -> str:
        return write_repr(self, *(write_value(place, "length") for place in self.base))

    @cached_property
    def outline(self) -> FloatArray:
        """Vertices (n + 2, 2), m: its base, then its far edge."""
        base = np.array([[place, 0.0] for place in self.base[::-1]])
        return np.concatenate([base, self.far])


def list_facets(cone: Cone, darts: int) -> tuple[Facet, ...]:
    """Return the facets of an extension that runs on, from the right.

    Parameters
    ----------
    cone : Cone
        The same extension sewn on.
    darts : int
        How many take in its turning, each an equal share of it.

    Raises
    ------
    ValueError
        For too few of them.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> from tautlay.hammock.cone import estimate_trough, flatten_cone
    >>> head, _ = example_hammock().ends
    >>> facets = list_facets(flatten_cone(estimate_trough(head), 0.6), 3)
    >>> len(facets), len(list_darts(facets))
    (4, 3)
    """
    places = _place_darts(cone, darts)
    return tuple(_lay_facet(cone, float(a), float(b)) for a, b in itertools.pairwise(places))


def list_darts(facets: tuple[Facet, ...]) -> list[float]:
    """Return the angle of each dart, rad, from the right; its point lies on the bar line between two facets."""
    return [pi - before.last - after.first for before, after in itertools.pairwise(facets)]


def _place_darts(cone: Cone, darts: int) -> FloatArray:
    """Return where darts stand along the bar line, m, with both corners: each amid its share of the turning."""
    steps = np.diff(cone.sewn, axis=0)
    turns = np.unwrap(np.arctan2(steps[:, 1], steps[:, 0]))
    # a solved line may bend back: what never falls, from either end alike
    turns = (np.maximum.accumulate(turns) + np.minimum.accumulate(turns[::-1])[::-1]) / 2
    middles = (cone.along[:-1] + cone.along[1:]) / 2
    shares = (np.arange(darts) + 0.5) / darts
    places = np.interp(shares, (turns - turns[0]) / (turns[-1] - turns[0]), middles)
    return np.concatenate([[0.0], places, [cone.width]])


def _lay_facet(cone: Cone, start: float, end: float) -> Facet:
    """Return the facet between two places along the bar line, m."""
    from scipy.optimize import brentq

    edge = cone.trace_sewn(start, end)
    (near, far), sides = edge[[0, -1]], np.hypot(*edge[[0, -1]].T) * (1 - cone.scale)
    chord = far - near
    angles = [
        float(np.arccos(-(way @ point) / np.hypot(*way) / np.hypot(*point)))
        for way, point in ((chord, near), (-chord, far))
    ]

    def place(lean: float) -> FloatArray:
        first, last = (angle - lean for angle in angles)
        right = np.array([start + sides[0] * np.cos(first), sides[0] * np.sin(first)])
        left = np.array([end - sides[1] * np.cos(last), sides[1] * np.sin(last)])
        return np.stack([right, left])

    def miss(lean: float) -> float:
        right, left = place(lean)
        return float(np.hypot(*(left - right)) - cone.scale * np.hypot(*chord))

    most = 4 * (end - start - float(np.hypot(*chord))) / float(sides.sum())
    if not miss(0.0) >= 0.0 >= miss(most):
        raise ValueError("the cloth under the bar is too round for so few darts.")
    lean = float(brentq(miss, 0.0, most, xtol=1e-14))
    right, left = place(lean)
    curve = cone.scale * (edge - near)
    turn = _measure_angle(left - right) - _measure_angle(cone.scale * chord)
    across = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    far = right + curve @ across
    far -= _bend_back(far, lean)
    return Facet((start, end), angles[0] - lean, angles[1] - lean, far)


def _bend_back(far: FloatArray, lean: float) -> FloatArray:
    """Return a shallow arch (n, 2), m, by which a far edge meets its leaning sides at the angles of the cone.

    It turns both ends by the lean, and lengthens the edge by a sixth of its square.
    """
    chord = far[-1] - far[0]
    share = (far - far[0]) @ chord / (chord @ chord)
    away = np.array([-chord[1], chord[0]])
    return np.asarray(lean * (share * (1 - share))[:, None] * away)


def _measure_angle(way: FloatArray) -> float:
    """Return the angle of a vector, rad."""
    return float(np.arctan2(way[1], way[0]))
