r"""A polynomial in place of many solves, fitted to those there are.

Sparse polynomial chaos of degree 2 in scores: of :math:`z_i, z_i^2 - 1` and
products :math:`z_i z_j` of the inputs of most effect, the term that takes most of what is left is added one by one; of
all these fits the one with the least error in points left out is kept. After G. Blatman and B. Sudret, J. Comput. Phys.
230 (2011) 2345, from memory; the greedy choice is orthogonal matching pursuit.
"""

from itertools import combinations
from typing import NamedTuple

import numpy as np

from ....hammock.arrays import FloatArray

_SPENT = 0.4  # of the points, as many terms at most
_CROSSED = 8  # inputs whose products are tried
_ROOT2 = np.sqrt(2.0)

Term = tuple[int, ...]  # (i,) is z_i, (i, i) its square less 1, (i, j) a product


class Response(NamedTuple):
    """A quantity as a polynomial of scores.

    Parameters
    ----------
    terms : tuple of tuple of int
        Its terms, besides the mean.
    weights : array
        The mean, then the factor of each term.
    left : array
        What it misses in each point when fitted without that point.
    explained : float
        1 less the mean square of ``left`` over the variance; 1 where there is none.
    """

    terms: tuple[Term, ...]
    weights: FloatArray
    left: FloatArray
    explained: float

    def predict(self, scores: FloatArray) -> FloatArray:
        """Return the quantity (n,) at scores (n, inputs)."""
        found: FloatArray = _evaluate(self.terms, scores) @ self.weights
        return found


def fit_response(scores: FloatArray, values: FloatArray) -> Response:
    """Return the polynomial that fits best.

    Parameters
    ----------
    scores : array (n, inputs)
        Of mean 0 and variance 1.
    values : array (n,)
        What was found there.

    Raises
    ------
    ValueError
        For fewer than eight points.

    Examples
    --------
    >>> import numpy as np
    >>> scores = np.random.default_rng(1).normal(size=(60, 4))
    >>> fitted = fit_response(scores, 3 + 2 * scores[:, 1] + scores[:, 0] * scores[:, 1])
    >>> sorted(fitted.terms), round(fitted.explained, 6)
    ([(0, 1), (1,)], 1.0)
    """
    if len(values) < 8:
        raise ValueError(f"{len(values)} points are too few to fit anything.")
    spread = float(np.var(values))
    best = _fit((), scores, values)
    if spread <= 1e-24 * max(float(np.mean(values)) ** 2, 1.0):
        return best._replace(explained=1.0)
    candidates, current = _list_candidates(scores, values), best
    while candidates and len(current.terms) < _SPENT * len(values):
        missing = values - current.predict(scores)
        columns = _evaluate(tuple(candidates), scores)[:, 1:]
        columns = columns - columns.mean(axis=0)
        gains = np.abs(columns.T @ missing) / np.linalg.norm(columns, axis=0)
        current = _fit((*current.terms, candidates.pop(int(np.argmax(gains)))), scores, values)
        if np.mean(current.left**2) < np.mean(best.left**2):
            best = current
        if np.mean(current.left**2) < 1e-20 * spread:
            break
    return best


def _list_candidates(scores: FloatArray, values: FloatArray) -> list[Term]:
    """Return the terms that are tried."""
    size = scores.shape[1]
    slopes = np.abs(np.corrcoef(scores.T, values)[-1, :-1]) if size > 1 else np.ones(1)
    strongest = sorted(int(place) for place in np.argsort(-slopes)[:_CROSSED])
    alone = [(place,) for place in range(size)]
    return [*alone, *((place, place) for place in range(size)), *combinations(strongest, 2)]


def _evaluate(terms: tuple[Term, ...], scores: FloatArray) -> FloatArray:
    """Return the terms (n, 1 + terms) at scores, each of mean 0, the constant first."""
    columns = [np.ones(len(scores))]
    for term in terms:
        product = np.prod(scores[:, list(term)], axis=1)
        columns.append((product - 1.0) / _ROOT2 if len(term) == 2 and term[0] == term[1] else product)
    return np.column_stack(columns)


def _fit(terms: tuple[Term, ...], scores: FloatArray, values: FloatArray) -> Response:
    """Return the least squares fit of some terms; what is missed without a point follows from its leverage."""
    matrix = _evaluate(terms, scores)
    basis, upper = np.linalg.qr(matrix)
    weights = np.linalg.solve(upper, basis.T @ values)
    leverage = np.minimum((basis**2).sum(axis=1), 1.0 - 1e-9)
    left = (values - matrix @ weights) / (1.0 - leverage)
    spread = float(np.var(values))
    return Response(terms, weights, left, 1.0 - float(np.mean(left**2)) / spread if spread > 0.0 else 1.0)
