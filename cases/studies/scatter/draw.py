"""Scores drawn from the laws of some inputs."""

from collections.abc import Sequence

import numpy as np

from ....hammock.arrays import FloatArray
from .distribution import Distribution

DRAWS = 200_000
_SEED = 30


def draw_scores(laws: Sequence[Distribution], samples: int, seed: int) -> FloatArray:
    """Return scores (samples, laws) of a Latin hypercube: each law is covered evenly.

    Examples
    --------
    >>> laws = [Distribution("normal", 0.0, 1.0, "a test"), Distribution("even", 0.0, 1.0, "a test")]
    >>> scores = draw_scores(laws, 100, 1)
    >>> scores.shape, bool(abs(scores.mean()) < 0.02), round(float(scores[:, 1].max()), 1)
    ((100, 2), True, 1.7)
    """
    from scipy.stats import qmc

    shares = qmc.LatinHypercube(len(laws), rng=np.random.default_rng(seed)).random(samples)
    return _score(laws, shares)


def draw_many(laws: Sequence[Distribution], *, draws: int = DRAWS) -> FloatArray:
    """Return scores (draws, laws) that are independent, always the same ones."""
    shares = np.random.default_rng(_SEED).random((draws, len(laws)))
    return _score(laws, np.maximum(shares, np.finfo(float).tiny))


def _score(laws: Sequence[Distribution], shares: FloatArray) -> FloatArray:
    """Return the scores of shares, law by law."""
    return np.column_stack([law.score(column) for law, column in zip(laws, shares.T, strict=True)])
