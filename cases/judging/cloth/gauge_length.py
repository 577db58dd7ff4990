"""Lengths of a gauge along an edge, and what falls into each of them."""

import numpy as np

from ....hammock.arrays import FloatArray


def list_starts(bounds: FloatArray, gauge: float) -> FloatArray:
    """Return where gauge lengths start (w,) that begin or end at one of ``bounds`` (n + 1,), all inside them.

    Examples
    --------
    >>> list_starts(np.array([0.0, 1.0, 2.0]), 0.5).tolist()
    [0.0, 0.5, 1.0, 1.5]
    """
    return np.unique(np.clip([bounds, bounds - gauge], bounds[0], bounds[-1] - gauge))


def share_out(bounds: FloatArray, per_node: list[FloatArray], gauge: float) -> list[FloatArray]:
    """Return how much of each row of values, spread between ``bounds`` (n + 1,), falls into each gauge length.

    Examples
    --------
    >>> [found.tolist() for found in share_out(np.array([0.0, 1.0, 2.0]), [np.array([4.0, 0.0])], 0.5)]
    [[2.0, 2.0, 0.0, 0.0]]
    """
    start = list_starts(bounds, gauge)
    ends = np.stack([start, start + gauge])
    sums = [np.concatenate([np.zeros(1), np.cumsum(values)]) for values in per_node]
    return [np.diff(np.interp(ends, bounds, total), axis=0)[0] for total in sums]
