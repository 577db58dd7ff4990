"""The chance of falling below a limit, and a band, from a fitted response and what it misses."""

from typing import NamedTuple

import numpy as np

from ....hammock.arrays import FloatArray
from .response import Response

_SEED = 31


class Spread(NamedTuple):
    """Many draws of a quantity, sorted."""

    values: FloatArray

    def find_chance(self, limit: float) -> float:
        """Return the share of draws below a limit."""
        return float(np.searchsorted(self.values, limit)) / len(self.values)

    def find_quantile(self, share: float) -> float:
        """Return the value below which a share of the draws lies."""
        return float(np.quantile(self.values, share))


def draw_spread(response: Response, scores: FloatArray) -> Spread:
    """Return draws of a response, with what it misses drawn from its own misses.

    Parameters
    ----------
    response : Response
        From :func:`~tautlay.cases.studies.scatter.response.fit_response`.
    scores : array (n, inputs)
        Independent ones; a chance p is then good to sqrt(p/n).

    Notes
    -----
    Plain Monte Carlo. Beyond the points that were solved it continues the polynomial: chances below one in the number
    of solves are extrapolated.

    Examples
    --------
    >>> import numpy as np
    >>> from tautlay.cases.studies.scatter.response import fit_response
    >>> scores = np.random.default_rng(1).normal(size=(40, 2))
    >>> fitted = fit_response(scores, 5 + 3 * scores[:, 0] + 4 * scores[:, 1])
    >>> spread = draw_spread(fitted, np.random.default_rng(2).normal(size=(200_000, 2)))
    >>> round(spread.find_chance(0.0), 2), round(spread.find_quantile(0.5), 1)  # normal: 0.159, 5
    (0.16, 5.0)
    """
    missed = np.random.default_rng(_SEED).choice(response.left, len(scores))
    return Spread(np.sort(response.predict(scores) + missed))
