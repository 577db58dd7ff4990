"""One point of cloth against one capsule: how deep it lies, and what that depth stores.

With the smaller radius D of the capsule, e = d^2/2 up to a quarter of D; from there on flesh resists ever more,
e = d^2/2 + (d - D/4)^3 D/(2D/5 - d)^2, so that the axis cannot come near the cloth; from 0.37 D it goes on as
a parabola, lest numbers overflow.
"""

import math
from typing import NamedTuple

from .compiling import compiled
from .element import Floats

Vector = tuple[float, float, float]

# Of the smaller radius: where flesh begins to stiffen, where it would give no more, and where that law ends.
_SOFT, _HARD, _LAST = 0.25, 0.4, 0.37


class Depth(NamedTuple):
    """Where a point lies in a capsule."""

    depth: float  # m below the skin
    s: float  # nearest place on the axis, from 0 at one end to 1 at the other
    inside: bool  # whether that lies between the ends
    v: Vector  # from there to the point, m


@compiled
def press(d: float, D: float) -> Vector:
    """Return e(d), its slope and its curvature for depth d > 0."""
    if d <= _SOFT * D:
        return 0.5 * d * d, d, 1.0
    u = min(d, _LAST * D)
    a, b = u - _SOFT * D, _HARD * D - u
    energy = 0.5 * u * u + a**3 * D / b**2
    slope = u + D * (3.0 * a**2 / b**2 + 2.0 * a**3 / b**3)
    bend = 1.0 + D * (6.0 * a / b**2 + 12.0 * a**2 / b**3 + 6.0 * a**3 / b**4)
    over = d - u
    return energy + over * (slope + 0.5 * bend * over), slope + bend * over, bend


@compiled
def find_depth(point: Vector, a: Floats, b: Floats, radii: tuple[float, float]) -> Depth:
    """Return how deep a point lies in the capsule from a to b.

    The best s balances the change of radius against that of distance: sin of the cone's half angle is
    (ra - rb)/L, and one ball lies inside the other where that exceeds 1.
    """
    ex, ey, ez = b[0] - a[0], b[1] - a[1], b[2] - a[2]
    ux, uy, uz = point[0] - a[0], point[1] - a[1], point[2] - a[2]
    ee = ex * ex + ey * ey + ez * ez
    ra, rb = radii
    taper = rb - ra
    inside = False
    if ee <= taper * taper:  # a ball, or one inside the other
        s = 1.0 if taper > 0.0 else 0.0
    else:
        ue = ux * ex + uy * ey + uz * ez
        s = ue / ee
        if taper != 0.0:
            away = max(ux * ux + uy * uy + uz * uz - ue * s, 0.0)
            s += taper * math.sqrt(away / (ee * (ee - taper * taper)))
        inside = 0.0 < s < 1.0
        s = min(max(s, 0.0), 1.0)
    vx, vy, vz = ux - s * ex, uy - s * ey, uz - s * ez
    return Depth(ra + s * taper - math.sqrt(vx * vx + vy * vy + vz * vz), s, inside, (vx, vy, vz))
