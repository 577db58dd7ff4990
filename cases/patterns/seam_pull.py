"""What pulls across lines on the flat cloth, read off a solved shape."""

import numpy as np

from ...cutting.panels import WeftPull
from ...hammock.arrays import FloatArray
from ...hammock.hammock import Body
from ..storage.shape import Shape
from .loaded_lines import find_body


def read_pull(shape: Shape, body: Body) -> WeftPull:
    """Return a function that tells what the weft pulls at points of the flat cloth, N/m.

    Parameters
    ----------
    shape : Shape
        As solved.
    body : Body
        Its cloth.

    Returns
    -------
    callable
        From points (n, 2), m, to N/m, that of the nearest triangle.
    """
    own = find_body(shape)
    middles = shape.flat[shape.triangles[own]].mean(axis=1)
    pulls = shape.weft_share[own] * body.fabric.strength_weft * body.layers

    def find(points: FloatArray) -> FloatArray:
        nearest = [int(np.argmin(((middles - point) ** 2).sum(axis=1))) for point in points]
        return np.asarray(pulls[nearest])

    return find
