"""Load cases of a hammock."""

from enum import StrEnum


class LoadCase(StrEnum):
    """Ways in which a person loads the cloth."""

    DISTRIBUTED = "distributed"  # lying: the weight of each part of the body spread over its footprint
    LYING = "lying"  # lying in contact: a jointed body sinks into the cloth
    SITTING = "sitting"  # across the middle to get in: weight spread under seat and thighs, shanks at the edge
    SUDDEN = "sudden"  # letting go: the distributed weight times a factor


SUDDEN_FACTOR = 2.0
r"""Force of a weight W let go while it just touches an elastic support, over W.

Dropped from a height h, the weight has lost the energy :math:`W (h + x)` where the support, of stiffness k, has given
by x and turns it back with :math:`k x^2/2`. With :math:`d = W/k`, how far the weight lowers the support at rest, both
are equal at

.. math:: x/d = 1 + \sqrt{1 + 2 h/d},

which is also the force over W: 2 for h = 0, 2.73 for h = d, 4.3 for h = 5 d. Limits: a massless linear support and
nothing lost; a hammock stiffens as it sinks, cloth and body lose some. Source: the impact factor of a falling weight,
textbook statics, such as S. Timoshenko, Strength of Materials, part I (energy of strain), unverified.
"""
