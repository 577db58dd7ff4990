r"""Least squares with ranges as a prior, and what they leave unsure.

With scores z of the inputs, each of mean 0 and variance 1 before, and readings :math:`y_i \pm \sigma_i`, the most
likely scores are those with the least

.. math:: \sum_i \left(\frac{y_i - f_i(z)}{\sigma_i}\right)^2 + \sum_j z_j^2

and, with slopes :math:`J_{ij} = \partial f_i / \partial z_j / \sigma_i` there, their covariance is
:math:`(J^T J + 1)^{-1}`. Limits: readings that are independent and normal, a response that is nearly straight within
what is left unsure. Source: A. Tarantola, Inverse Problem Theory, the Gaussian case (from memory).
"""

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from ....hammock.arrays import FloatArray
from ..scatter.distribution import NINETY

_MOST = 15  # evaluations
_CLOSE = 1e-3  # relative change of the sum of squares, and of the scores, at which the search ends
_ENOUGH = 1e-3  # share of a slope that counts

Answer = Callable[[FloatArray], FloatArray]


class Posterior(NamedTuple):
    """What measurements leave unsure.

    Parameters
    ----------
    scores : (inputs,)
        The most likely ones.
    covariance : (inputs, inputs)
        Of the scores.
    misfits : (readings,)
        Measured less computed, over the standard deviation of the reading.
    """

    scores: FloatArray
    covariance: FloatArray
    misfits: FloatArray

    @property
    def narrowed(self) -> FloatArray:
        """Standard deviation of each score (inputs,): 1 where the measurements tell nothing."""
        found: FloatArray = np.sqrt(np.diag(self.covariance))
        return found

    @property
    def bands(self) -> FloatArray:
        """Scores (2, inputs) between which 90 of 100 lie."""
        return self.scores + np.array([[-1.0], [1.0]]) * NINETY * self.narrowed

    def measure_also(self, slopes: FloatArray) -> FloatArray:
        """Return the standard deviations (inputs,) with one more reading, slopes (inputs,) over its own.

        Examples
        --------
        >>> know = Posterior(np.zeros(2), np.eye(2), np.zeros(0))
        >>> know.measure_also(np.array([3.0, 0.0])).round(3).tolist()
        [0.316, 1.0]
        """
        told = self.covariance @ slopes
        left = np.diag(self.covariance) - told**2 / (1.0 + slopes @ told)
        found: FloatArray = np.sqrt(np.maximum(left, 0.0))
        return found

    @property
    def chance(self) -> float:
        """Chance of misfits as large as these, or larger, if model, ranges and accuracies are right."""
        from scipy.stats import chi2

        total = float(self.misfits @ self.misfits + self.scores @ self.scores)
        return float(chi2.sf(total, len(self.misfits)))


def fit_scores(answer: Answer, slope: Answer, measured: FloatArray, spreads: FloatArray, ends: FloatArray) -> Posterior:
    """Return the most likely scores and what is left unsure.

    Parameters
    ----------
    answer : callable
        From scores (inputs,) to readings (readings,).
    slope : callable
        From scores to slopes (readings, inputs).
    measured, spreads : (readings,)
        Values and standard deviations.
    ends : (inputs,)
        Largest size of each score; infinite for a law without ends.

    Examples
    --------
    >>> found = fit_scores(
    ...     lambda z: 2.0 * z, lambda z: np.array([[2.0]]), np.array([1.0]), np.array([1.0]), np.array([np.inf])
    ... )
    >>> found.scores.round(3).tolist(), found.narrowed.round(3).tolist()  # 2/(4 + 1), 1/sqrt(4 + 1)
    ([0.4], [0.447])
    """
    from scipy.optimize import least_squares

    def miss(scores: FloatArray) -> FloatArray:
        return np.concatenate([(answer(scores) - measured) / spreads, scores])

    def lean(scores: FloatArray) -> FloatArray:
        return np.concatenate([slope(scores) / spreads[:, None], np.eye(len(scores))])

    start = np.zeros(len(ends))
    found = least_squares(
        miss, start, jac=lean, bounds=(-ends, ends), ftol=_CLOSE, xtol=_CLOSE, gtol=_ENOUGH, max_nfev=_MOST
    )
    leaning = lean(found.x)
    covariance: FloatArray = np.asarray(np.linalg.inv(leaning.T @ leaning), dtype=np.float64)
    return Posterior(found.x, covariance, -found.fun[: len(measured)])
