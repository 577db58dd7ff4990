"""What closes the end beyond a bar between the legs."""

from math import sqrt

import numpy as np

from .arrays import FloatArray
from .cross_section import find_opening
from .extension import CapShape

_CHORDS = 100


def draw_cap(shape: CapShape, top: float, edge: float) -> FloatArray | None:
    """Return the flat cap; None where there is none.

    Parameters
    ----------
    shape : CapShape
        Its lower edge, which is as long as the far edge that it is sewn to.
    top : float
        Straight distance between the legs, m.
    edge : float
        Length of the lower edge, m.

    Returns
    -------
    (n, 2) or None
        Lower edge from the right leg to the left, m; x down, y to the left.

    Examples
    --------
    >>> draw_cap(CapShape.TWO_EDGES, 0.6, 1.0).round(6).tolist()
    [[0.0, -0.3], [0.4, 0.0], [0.0, 0.3]]
    """
    if shape is CapShape.NONE:
        return None
    if shape is CapShape.TWO_EDGES:
        return np.array([[0.0, -top / 2], [sqrt(edge**2 - top**2) / 2, 0.0], [0.0, top / 2]])
    opening = float(find_opening(np.array(top / edge)))
    turn = opening * np.linspace(-1.0, 1.0, _CHORDS + 1)
    radius = edge / (2 * opening)
    return radius * np.stack([np.cos(turn) - np.cos(opening), np.sin(turn)], -1)
