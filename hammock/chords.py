"""Which chords stand for a curve: none farther off it than a cutter can follow."""

from math import ceil, sqrt

import numpy as np

from .arrays import FloatArray, IntegerArray

OFF = 1.0e-5  # m; engineering judgement: a hundredth of how well edges must fit, and far less than a line is wide


def count_chords(depth: float) -> int:
    r"""Return how many even chords stand for an arc whose middle is ``depth``, m, off the line between its ends.

    Those of a parabola are :math:`d / n^2` off it.

    Examples
    --------
    >>> count_chords(0.15)
    123
    """
    return ceil(sqrt(depth / OFF))


def pick_vertices(line: FloatArray) -> IntegerArray:
    """Return which vertices (k,) of a line (n, 2), m, are enough: its ends, its middle one, and those far off a chord.

    A stretch is parted at the vertex that is farthest off its chord, until none is too far (Ramer 1972, Douglas and
    Peucker 1973).

    Examples
    --------
    >>> pick_vertices(np.array([[0.0, 0.0], [1.0, 0.0], [2.0, 0.0], [3.0, 0.0], [4.0, 1.0]])).tolist()
    [0, 2, 3, 4]
    """
    middle = len(line) // 2
    kept, left = {0, middle, len(line) - 1}, [(0, middle), (middle, len(line) - 1)]
    while left:
        first, last = left.pop()
        chord, inside = line[last] - line[first], line[first + 1 : last] - line[first]
        away = np.abs(inside[:, 0] * chord[1] - inside[:, 1] * chord[0]) / np.hypot(*chord)
        if len(away) and away.max() > OFF:
            farthest = first + 1 + int(away.argmax())
            kept.add(farthest)
            left += [(first, farthest), (farthest, last)]
    return np.array(sorted(kept))
