r"""Cloth hanging between two cords as a circular arc.

With cloth width w, chord c and half the opening angle :math:`\varphi`: :math:`\sin\varphi/\varphi = c/w`,
radius :math:`w/2\varphi`, sag :math:`r(1-\cos\varphi)`.
"""

import numpy as np

from .arrays import FloatArray


def find_opening(ratio: FloatArray) -> FloatArray:
    """Return half the opening angle, rad, for the ratio of chord to arc (any shape), 0 < ratio <= 1.

    Found by bisection, since sin(phi)/phi falls steadily from 1 to 0 between 0 and pi.

    Raises
    ------
    ValueError
        For a ratio outside (0, 1].

    Examples
    --------
    >>> find_opening(np.array([2 / np.pi, 1.0])).round(6).tolist()
    [1.570796, 0.0]
    """
    ratio = np.asarray(ratio, dtype=np.float64)
    if not ((ratio > 0) & (ratio <= 1)).all():
        raise ValueError(f"chord over arc must be in (0, 1], got {ratio.min():g} to {ratio.max():g}.")
    low, high = np.zeros_like(ratio), np.full_like(ratio, np.pi)
    for _ in range(60):
        middle = (low + high) / 2
        open_further = np.sinc(middle / np.pi) > ratio
        low, high = np.where(open_further, middle, low), np.where(open_further, high, middle)
    return np.where(ratio < 1, (low + high) / 2, 0.0)


def find_sag(width: FloatArray, chord: FloatArray) -> FloatArray:
    """Return the sag, m, of cloth of ``width`` m in an arc over ``chord`` m.

    Examples
    --------
    >>> find_sag(np.array([np.pi]), np.array([2.0])).round(9).tolist()
    [1.0]
    """
    opening = find_opening(np.asarray(chord) / width)
    return np.asarray(width / 2 * np.tan(opening / 2) * np.sinc(opening / np.pi))
