r"""Side view of the loaded hammock between two trees, before it is solved.

From each tree a straight line with legs comes down to a bar; between the bars the body follows a
circular arc that leaves each line without a kink, as a cable does under an even load. With angles
:math:`\alpha, \beta` of the lines above the horizontal and the radius :math:`R = L/(\alpha+\beta)`

.. math:: D = r_h\cos\alpha + R(\sin\alpha+\sin\beta) + r_f\cos\beta

and the drop from strap to the lowest point is :math:`r\sin\alpha + R(1-\cos\alpha)` at either end, which
must fit the heights of the straps, which are given (``cases.studies.hang.strap_heights`` finds them for other trees).
It starts the solver and judges the trees; the loaded shape differs.
"""

from dataclasses import dataclass

import numpy as np

from ..materials.short_repr import write_repr, write_value
from .arrays import FloatArray
from .hammock import Hammock
from .hang_error import refuse_distance, refuse_heights

STEEPEST = float(np.radians(80.0))  # highest hang angle of a design
_FLATTEST = 1e-3  # rad


@dataclass(frozen=True)
class Hang:
    """Lines with legs, and body, in side view.

    Parameters
    ----------
    head_rope, foot_rope : float
        From tree to bar, m, line and legs in one straight line.
    length : float
        Of the body along its arc, m.
    head_height, foot_height : float
        Straps above the ground, m.
    head_angle, foot_angle : float
        Lines above the horizontal, rad.
    """

    head_rope: float
    foot_rope: float
    length: float
    head_height: float
    foot_height: float
    head_angle: float
    foot_angle: float

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"ropes {write_value(self.head_rope, 'length')} and {write_value(self.foot_rope, 'length')}",
            f"body {write_value(self.length, 'length')}",
            f"angles {write_value(self.head_angle, 'angle')} and {write_value(self.foot_angle, 'angle')}",
        )

    @property
    def radius(self) -> float:
        """Radius of the body's arc, m."""
        return self.length / (self.head_angle + self.foot_angle)

    @property
    def tree_distance(self) -> float:
        """Horizontal distance between the straps, m."""
        ropes = self.head_rope * np.cos(self.head_angle) + self.foot_rope * np.cos(self.foot_angle)
        return float(ropes + self.radius * (np.sin(self.head_angle) + np.sin(self.foot_angle)))

    @property
    def lowest(self) -> float:
        """Height of the lowest point of the side cords above the ground, m."""
        drop = self.head_rope * np.sin(self.head_angle) + self.radius * (1 - np.cos(self.head_angle))
        return float(self.head_height - drop)

    def trace_body(self, distance: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return x from the middle of the trees and height z, m, at ``distance`` m along the body."""
        turn = self.head_angle - np.asarray(distance) / self.radius
        x, z = self.trace_rope(head=True, distance=self.head_rope)
        x = x + self.radius * (np.sin(self.head_angle) - np.sin(turn))
        return x, z - self.radius * (np.cos(turn) - np.cos(self.head_angle))

    def trace_rope(self, *, head: bool, distance: float) -> tuple[float, float]:
        """Return x from the middle of the trees and height z, m, at ``distance`` m from a tree."""
        angle, height = (self.head_angle, self.head_height) if head else (self.foot_angle, self.foot_height)
        along = self.tree_distance / 2 - distance * np.cos(angle)
        return float(-along if head else along), float(height - distance * np.sin(angle))


def reach_of_legs(leg: float, bar: float) -> float:
    """Return the distance from bar to apex in side view, m; zero for legs that do not span the bar."""
    return float(np.sqrt(max(leg**2 - (bar / 2) ** 2, 0.0)))


def hang_hammock(hammock: Hammock, tree_distance: float | None = None) -> Hang:
    """Return the side view of ``hammock``.

    Parameters
    ----------
    hammock : Hammock
        Its hang angle or tree distance settles the angles.
    tree_distance : float or None
        Overrides both, m.

    Raises
    ------
    HangError
        For trees too far apart or too close, or straps of too different height; the message says which.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> hang = hang_hammock(example_hammock())
    >>> round(float(np.degrees(hang.head_angle)), 6), round(hang.tree_distance, 3)
    (30.0, 4.706)
    """
    suspension = hammock.suspension
    distance = suspension.tree_distance if tree_distance is None else tree_distance
    if distance is None:
        if suspension.hang_angle is None:
            raise ValueError("suspension needs a hang_angle or a tree_distance.")
        hang = _hang_at(hammock, suspension.hang_angle)
        if hang is None:
            raise refuse_heights(hammock)
        return hang
    return _hang_between(hammock, distance)


def reach_of_ropes(hammock: Hammock) -> tuple[float, float]:
    """Return the length of line and legs from tree to bar, head and foot, m."""
    head, foot = (end.suspension.line_length + reach_of_legs(end.leg_length, end.bar.length) for end in hammock.ends)
    return head, foot


def _hang_at(hammock: Hammock, mean: float) -> Hang | None:
    """Return the side view with a given mean angle, or None where strap heights differ too much for it."""
    from scipy.optimize import brentq

    s = hammock.suspension
    ropes = reach_of_ropes(hammock)

    def tilt(difference: float) -> Hang:
        angles = mean + difference, mean - difference
        return Hang(*ropes, hammock.body.length, s.head.strap_height, s.foot.strap_height, *angles)

    def miss(difference: float) -> float:
        hang = tilt(difference)
        foot_drop = hang.foot_rope * np.sin(hang.foot_angle) + hang.radius * (1 - np.cos(hang.foot_angle))
        return float(s.foot.strap_height - foot_drop - hang.lowest)

    most = min(mean, np.pi / 2 - mean) - _FLATTEST / 2
    if most <= 0 or miss(-most) * miss(most) > 0:
        return None
    return tilt(float(brentq(miss, -most, most, xtol=1e-14)))


def _hang_between(hammock: Hammock, distance: float) -> Hang:
    """Return the side view between trees at a given distance."""
    from scipy.optimize import brentq

    known = _list_hangs(hammock)
    if not known[-1].tree_distance < distance < known[0].tree_distance:
        raise refuse_distance(hammock, distance, reach_of_ropes(hammock), known[0].tree_distance)
    index = next(k for k, hang in enumerate(known) if hang.tree_distance <= distance)
    if known[index].tree_distance == distance:
        return known[index]

    def miss(mean: float) -> float:
        hang = _hang_at(hammock, mean)
        return np.inf if hang is None else hang.tree_distance - distance

    low, high = ((known[k].head_angle + known[k].foot_angle) / 2 for k in (index - 1, index))
    hang = _hang_at(hammock, float(brentq(miss, low, high, xtol=1e-14)))
    if hang is None:
        raise refuse_heights(hammock)
    return hang


def _list_hangs(hammock: Hammock) -> list[Hang]:
    """Return side views from the flattest to the steepest that the heights of the straps allow."""
    hangs = [_hang_at(hammock, mean) for mean in np.linspace(_FLATTEST, np.pi / 2 - _FLATTEST, 60)]
    known = [hang for hang in hangs if hang is not None]
    if not known:
        raise refuse_heights(hammock)
    return known


def find_distance_limits(hammock: Hammock) -> tuple[float, float]:
    """Return the nearest and the farthest trees, m, between which a hammock can be hung."""
    known = _list_hangs(hammock)
    usual = [hang for hang in known if (hang.head_angle + hang.foot_angle) / 2 <= STEEPEST] or known
    return (_hang_at(hammock, STEEPEST) or usual[-1]).tree_distance, known[0].tree_distance
