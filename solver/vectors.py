"""Products of many small vectors: those of numpy turn axes about at every call, which takes longer than they do."""

import numpy as np

from .element import Floats


def cross(first: Floats, second: Floats) -> Floats:
    """Return the cross products (m, 3) of vectors (m, 3)."""
    (a, b, c), (d, e, f) = first.T, second.T
    return np.stack([b * f - c * e, c * d - a * f, a * e - b * d], axis=1)


def make_cross_matrix(vector: Floats) -> Floats:
    """Return the matrices (m, 3, 3) that multiply by vectors (m, 3) from the left, as a cross product."""
    matrix = np.zeros((len(vector), 3, 3))
    matrix[:, 2, 1], matrix[:, 0, 2], matrix[:, 1, 0] = vector.T
    return matrix - matrix.swapaxes(1, 2)


def square(first: Floats, second: Floats) -> Floats:
    """Return the outer products (m, n, k) of vectors (m, n) and (m, k)."""
    return np.asarray(first[:, :, None] * second[:, None, :])
