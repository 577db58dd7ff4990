r"""What a design weighs once its sizes have followed a swap, foretold from designs that were solved already.

Masses and shortfalls of designs that differ in sizes alone are fitted by straight lines, :math:`m = m_0 + c^T d` and
:math:`g = g_0 + J d` in the shares d of the range of each size. A swap at the same sizes has shown by how much it moves
both. The sizes that follow are those of the linear programme

.. math:: \min_d c^T d, \qquad g' + J d \ge 0, \qquad |d| \le r,

with the shortfalls g' of the swap. A guess, from which a search begins, and never a result.
"""

from typing import NamedTuple

import numpy as np

from ....hammock.arrays import FloatArray
from ....materials.short_repr import write_repr, write_value

_REACH = 0.25  # share of the range within which lines are trusted


class Lines(NamedTuple):
    """Straight lines through designs round one.

    Parameters
    ----------
    origin : (n,)
        Sizes of that one, as shares of their ranges.
    slope : (n,)
        Change of mass, kg.
    change : (k, n)
        Change of the shortfalls.
    """

    origin: FloatArray
    slope: FloatArray
    change: FloatArray

    def __repr__(self) -> str:
        return write_repr(self, f"{len(self.origin)} sizes")


class Resized(NamedTuple):
    """A swap with the sizes that follow it, (n,) as shares, and what it then weighs, kg."""

    shares: FloatArray
    mass: float

    def __repr__(self) -> str:
        return write_repr(self, write_value(self.mass, "mass"))


def fit_lines(origin: FloatArray, shares: FloatArray, masses: FloatArray, shortfalls: FloatArray) -> Lines | None:
    """Return the lines through designs near one; None where these are too few.

    Parameters
    ----------
    origin : (n,)
        Sizes of that one.
    shares, masses, shortfalls : (m, n), (m,), (m, k)
        Sizes, mass, kg, and shortfalls of all designs, that one included.
    """
    near = np.abs(shares - origin).max(axis=1) <= _REACH
    if near.sum() <= len(origin):
        return None
    offsets = np.hstack([np.ones((near.sum(), 1)), shares[near] - origin])
    if np.linalg.matrix_rank(offsets) < offsets.shape[1]:
        return None
    found = np.linalg.lstsq(offsets, np.column_stack([masses[near], shortfalls[near]]), rcond=None)[0]
    return Lines(origin, found[1:, 0], found[1:, 1:].T)


def resize(lines: Lines, mass: float, shortfalls: FloatArray) -> Resized | None:
    """Return a swap with the sizes that follow it; None where no sizes within reach let it pass.

    Parameters
    ----------
    lines : Lines
        Round the design that was swapped.
    mass : float
        Of the swap at the same sizes, kg.
    shortfalls : (k,)
        Of the swap at the same sizes.

    Examples
    --------
    >>> lines = Lines(np.array([0.5]), np.array([0.1]), np.array([[2.0]]))
    >>> resize(lines, 0.3, np.array([-0.2]))
    <Resized 310 g>
    """
    from scipy.optimize import linprog

    low, high = np.maximum(-_REACH, -lines.origin), np.minimum(_REACH, 1.0 - lines.origin)
    found = linprog(lines.slope, A_ub=-lines.change, b_ub=shortfalls, bounds=np.column_stack([low, high]))
    if found.x is None:
        return None
    return Resized(lines.origin + found.x, mass + float(found.fun))
