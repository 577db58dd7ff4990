"""The unloaded shape: the empty hammock if it was computed, or else the cloth as cut, laid flat."""

from typing import NamedTuple

import numpy as np

from ..cases.storage.shape import BARS, FloatArray, IntegerArray, Shape
from ..cases.storage.stored_result import StoredResult

GHOST_COLOUR = "#6f6f78"
EMPTY, FLAT = "empty hammock,\ncomputed", "cloth as cut, laid flat\nbetween the bars"


class UnloadedShape(NamedTuple):
    """Where the cloth lies unloaded (n, 3), m, and what that is in words."""

    points: FloatArray
    words: str


def find_ghost(result: StoredResult) -> UnloadedShape:
    """Return the unloaded cloth of a result; its points are numbered as those of the loaded shape."""
    if result.empty is not None:
        return UnloadedShape(result.empty.points, EMPTY)
    return UnloadedShape(lay_flat(result.shape), FLAT)


def lay_flat(shape: Shape) -> FloatArray:
    """Return the cloth as cut (n, 3), m, level, as far from both bars and as high as the two are on average."""
    bars = shape.points[shape.segments[np.isin(shape.part, BARS)]].reshape(-1, 3).mean(axis=0)
    ends = shape.flat[np.unique(shape.triangles)]
    middle = (ends[:, 0].min() + ends[:, 0].max()) / 2
    return np.asarray(np.column_stack([shape.flat[:, 0] - middle, shape.flat[:, 1], np.zeros(len(shape.flat))]) + bars)


def find_rim(triangles: IntegerArray) -> IntegerArray:
    """Return the nodes (k,) round the cloth, one after the other, the first again at the end.

    Parameters
    ----------
    triangles : (m, 3)
        In one piece without holes, all the same way round.

    Examples
    --------
    >>> find_rim(np.array([[0, 1, 2], [1, 3, 2]])).tolist()
    [0, 1, 3, 2, 0]
    """
    edges = triangles[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2)
    both = {(int(a), int(b)) for a, b in edges}
    after = {a: b for a, b in both if (b, a) not in both}
    rim = [min(after)]
    while len(rim) <= len(after):
        rim.append(after[rim[-1]])
    return np.array(rim)
