"""From which inputs a scatter comes: first and total indices of Sobol."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np

from ....hammock.arrays import FloatArray
from .distribution import REACH, Distribution

POINTS = 4096  # a power of two, as Sobol's sequence wants
SEED = 20


class Indices(NamedTuple):
    """Shares of a variance by input: alone (first), and with all that it does together with others (total)."""

    first: FloatArray
    total: FloatArray


def find_indices(
    compute: Callable[[FloatArray], FloatArray], laws: Sequence[Distribution], *, points: int = POINTS
) -> Indices:
    """Return the indices of a function of independent scores.

    Parameters
    ----------
    compute : callable
        From scores (n, inputs) to values (n,).
    laws : sequence of Distribution
        One for each input.
    points : int
        A power of two; the function is asked for ``points * (inputs + 2)`` values.

    Returns
    -------
    Indices
        Zeros where nothing scatters.

    Notes
    -----
    A. Saltelli and others, Comput. Phys. Commun. 181 (2010) 259, as scipy has it.

    Examples
    --------
    >>> laws = [Distribution("normal", 0.0, 1.0, "a test")] * 3
    >>> found = find_indices(lambda scores: 2 * scores[:, 0] + scores[:, 1], laws)
    >>> found.first.round(2), found.total.round(2)
    (array([0.8, 0.2, 0. ]), array([0.8, 0.2, 0. ]))
    """
    from scipy.stats import norm, sobol_indices, uniform

    size = len(laws)
    probe = np.random.default_rng(SEED).uniform(-1.0, 1.0, (64, size))
    if float(np.ptp(compute(probe))) == 0.0:
        return Indices(np.zeros(size), np.zeros(size))
    drawn = [uniform(-REACH, 2 * REACH) if law.kind == "even" else norm() for law in laws]
    found = sobol_indices(func=lambda x: compute(x.T)[None, :], n=points, dists=drawn, rng=np.random.default_rng(SEED))
    first, total = (np.reshape(each, size) for each in (found.first_order, found.total_order))
    return Indices(np.clip(first, 0.0, 1.0), np.clip(total, 0.0, 1.0))
