"""Round numbers for the ends and the marks of scales."""

from math import ceil, floor, log10

import numpy as np

from ..cases.storage.shape import FloatArray

_STEPS = (1.0, 2.0, 5.0, 10.0)
_SHARE = 0.99 - 1e-9


def find_high(values: FloatArray, areas: FloatArray) -> float:
    """Return the value that 99 % of what is above 0, by area, does not exceed; 0 for nothing.

    Parameters
    ----------
    values, areas : (m,)
        Of the triangles; single ones at corners stand out, and would leave all others one colour.

    Examples
    --------
    >>> find_high(np.array([3.0, 130.0, 0.0]), np.ones(3))
    130.0
    """
    above = np.flatnonzero(values > 0.0)
    if not len(above):
        return 0.0
    order = above[np.argsort(values[above])]
    below = np.cumsum(areas[order]) / areas[order].sum()
    return float(values[order][min(int(np.searchsorted(below, _SHARE)), len(order) - 1)])


def pick_step(size: float) -> float:
    """Return the first of 1, 2, 5, 10, 20 ... times a power of ten that is not below ``size``, which is positive.

    Examples
    --------
    >>> pick_step(0.03), pick_step(446.0)
    (0.05, 500.0)
    """
    decade = 10.0 ** floor(log10(size))
    return next(step * decade for step in _STEPS if step * decade >= size * (1 - 1e-9))


def list_ticks(low: float, high: float, most: int = 6) -> list[float]:
    """Return round numbers between two limits, at most ``most`` and evenly spaced.

    Examples
    --------
    >>> list_ticks(0.0, 206.0)
    [0.0, 50.0, 100.0, 150.0, 200.0]
    """
    step = pick_step((high - low) / most)
    first, last = ceil(low / step - 1e-9), floor(high / step + 1e-9)
    return [place * step for place in range(first, last + 1)]
