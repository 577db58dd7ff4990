"""Twelve points in a triangle that integrate polynomials of degree six exactly, and the same in each of its parts.

Source: D. A. Dunavant, Int. J. Numer. Methods Eng. 21 (1985) 1129-1148, degree 6 (from memory; a test
integrates every monomial).
"""

import numpy as np
from numpy.typing import NDArray

_RINGS = (  # weight, corner shares of one point; the others are its permutations
    (0.116786275726379, (0.501426509658179, 0.249286745170910, 0.249286745170910)),
    (0.050844906370207, (0.873821971016996, 0.063089014491502, 0.063089014491502)),
    (0.082851075618374, (0.053145049844817, 0.310352451033784, 0.636502499121399)),
)


def _list_points() -> list[tuple[float, tuple[float, ...]]]:
    """Return weight and corner shares of each point."""
    turns = ((0, 1, 2), (1, 2, 0), (2, 0, 1), (0, 2, 1), (2, 1, 0), (1, 0, 2))
    return [(weight, point) for weight, a in _RINGS for point in sorted({(a[i], a[j], a[k]) for i, j, k in turns})]


WEIGHTS = np.array([weight for weight, _ in _list_points()])  # (12,) of the area
CORNER_SHARES = np.array([point for _, point in _list_points()])  # (12, 3)


def _split(times: int) -> list[NDArray[np.float64]]:
    """Return the parts (3, 3), corner by corner, of a triangle whose sides are halved so many times."""
    a, b, c = np.eye(3)
    parts = [np.array([a, b, c])]
    for _ in range(times):
        middles = [(part + part[[1, 2, 0]]) / 2 for part in parts]
        parts = [
            np.array(corners)
            for (a, b, c), (ab, bc, ca) in zip(parts, middles, strict=True)
            for corners in ((a, ab, ca), (ab, b, bc), (ca, bc, c), (ab, bc, ca))
        ]
    return parts


_SPLITS = 3  # how fine a rule there is: none, one or two halvings
FINE_SHARES = np.concatenate([CORNER_SHARES @ part for times in range(_SPLITS) for part in _split(times)])  # (252, 3)
FINE_WEIGHTS = np.concatenate([np.tile(WEIGHTS / 4**times, 4**times) for times in range(_SPLITS)])  # (252,)
FINE_STARTS = np.cumsum(
    [0, *(len(WEIGHTS) * 4**times for times in range(_SPLITS))]
)  # where each rule begins, and the end
