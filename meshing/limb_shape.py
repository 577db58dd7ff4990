r"""A limb as a frustum of the mass, length and centre of mass of its segment, at the density of flesh.

With the ratio q of the end radii the centre lies at :math:`(1+2q+3q^2)/4(1+q+q^2)`.
"""

from math import pi, sqrt

from ..hammock.body_segments import Segment

_DENSITY = 1050.0  # kg/m3, from memory: mean of the limbs, Winter (2009) ch. 4


def shape_limb(segment: Segment, *, straight: bool = False) -> tuple[float, float]:
    """Return the end radii, m, of a frustum with half the segment's mass, its length and centre of mass."""
    c = 0.5 if straight else segment.centre
    taper = sqrt((2 - 4 * c) ** 2 - 4 * (3 - 4 * c) * (1 - 4 * c))
    q = (-(2 - 4 * c) + taper) / (2 * (3 - 4 * c))
    square = segment.mass / 2 / (_DENSITY * pi * (segment.end - segment.start)) * 3 / (1 + q + q * q)
    return sqrt(square), q * sqrt(square)
