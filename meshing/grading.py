"""Stations along a line: fine at both ends, coarse between, never growing faster than a set ratio."""

import numpy as np

from ..hammock.arrays import FloatArray

RATIO = 1.3  # of neighbouring cells at most, where nothing else is asked for


def grade_line(length: float, fine: float, coarse: float, ratio: float = RATIO) -> FloatArray:
    r"""Return stations 0 ... ``length`` with cells of about ``fine`` at both ends and ``coarse`` between.

    Cell size as a function of the distance s to the nearer end: :math:`h(s) = \min(h_1, h_0 + g s)`,
    which makes neighbours a geometric series of the ratio :math:`e^g`. Stations are equally spaced in
    :math:`\int ds/h`, so no cell is larger than asked for.

    Parameters
    ----------
    length, fine, coarse : float
        m.
    ratio : float
        Of neighbouring cells at most, above 1.

    Returns
    -------
    (k + 1,) float
        k even, symmetric about the middle to round-off.

    Raises
    ------
    ValueError
        Unless 0 < fine <= coarse and length > 0.

    Examples
    --------
    >>> grade_line(1.0, 0.1, 0.2).round(3).tolist()
    [0.0, 0.09, 0.202, 0.339, 0.5, 0.661, 0.798, 0.91, 1.0]
    """
    if not (0 < fine <= coarse and length > 0):
        raise ValueError(f"cells need 0 < fine <= coarse and a length, got {fine}, {coarse}, {length}.")
    growth = float(np.log(ratio))
    total = _count(length / 2, fine, coarse, growth)
    cells = max(int(np.ceil(total - 1e-9)), 1)
    half = _invert(np.linspace(0.0, total, cells + 1)[:-1], fine, coarse, growth)
    return np.concatenate([half, [length / 2], length - half[::-1]])


def grade_between(breaks: FloatArray, fine: float, coarse: float, ratio: float = RATIO) -> FloatArray:
    """Return stations through every one of ``breaks`` (b,), m, ascending, fine next to each of them.

    Pieces too short for many cells make the whole line as fine as they need, so that sizes stay smooth
    across a break.
    """
    lengths = np.diff(breaks)
    fine = min([fine, *(_fit_fine(float(length), fine, coarse, float(np.log(ratio))) for length in lengths)])
    pieces = [
        start + grade_line(float(length), fine, coarse, ratio)[:-1]
        for start, length in zip(breaks[:-1], lengths, strict=True)
    ]
    stations = np.concatenate([*pieces, breaks[-1:]])
    middle = (breaks[0] + breaks[-1]) / 2  # mirror by hand where breaks are symmetric: round-off counts
    if np.allclose(breaks + breaks[::-1], 2 * middle, rtol=0, atol=1e-12 * abs(breaks[-1])):
        count = len(stations) // 2
        stations[-count:] = 2 * middle - stations[:count][::-1]
    return stations


def _fit_fine(length: float, fine: float, coarse: float, growth: float) -> float:
    """Return the largest fine size with which cells fit a short ``length`` without being shrunk."""
    half = length / 2
    cells = int(np.ceil(_count(half, fine, coarse, growth) - 1e-9))
    if half >= (coarse - fine) / growth:
        return fine  # long enough for the field size: many cells, hardly shrunk
    return min(fine, growth * half / float(np.expm1(growth * max(cells, 1))))


def _count(distance: float, fine: float, coarse: float, growth: float) -> float:
    """Return how many cells, as a real number, lie between an end and ``distance`` from it."""
    ramp = (coarse - fine) / growth
    near = min(distance, ramp)
    return float(np.log1p(growth * near / fine) / growth + (distance - near) / coarse)


def _invert(count: FloatArray, fine: float, coarse: float, growth: float) -> FloatArray:
    """Return the distances from an end up to which ``count`` cells lie."""
    ramp_count = np.log(coarse / fine) / growth
    near = fine / growth * np.expm1(growth * np.minimum(count, ramp_count))
    return np.asarray(near + coarse * np.maximum(count - ramp_count, 0))
