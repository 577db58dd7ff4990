"""The points at which contact is judged."""

from math import factorial

import numpy as np
import pytest

from tautlay.solver.quadrature import CORNER_SHARES, FINE_SHARES, FINE_STARTS, FINE_WEIGHTS, WEIGHTS


@pytest.mark.parametrize("powers", [(i, j, k) for i in range(7) for j in range(7 - i) for k in range(7 - i - j)])
def test_monomials_up_to_degree_six_are_exact(powers):
    """Mean of a^i b^j c^k over a triangle: 2 i! j! k!/(i + j + k + 2)!, textbook."""
    i, j, k = powers
    exact = 2 * factorial(i) * factorial(j) * factorial(k) / factorial(i + j + k + 2)
    found = WEIGHTS @ (CORNER_SHARES**powers).prod(axis=1)
    assert found == pytest.approx(exact, rel=1e-12)


def test_points_lie_inside():
    assert CORNER_SHARES.min() > 0
    assert WEIGHTS.min() > 0


@pytest.mark.parametrize("rule", range(len(FINE_STARTS) - 1))
def test_finer_rules_are_as_exact_and_their_points_closer(rule):
    """The same mean of a^4 b^2, and a quarter of the weight to each point with every rule."""
    points = slice(FINE_STARTS[rule], FINE_STARTS[rule + 1])
    shares, weights = FINE_SHARES[points], FINE_WEIGHTS[points]
    assert weights @ (shares ** [4, 2, 0]).prod(axis=1) == pytest.approx(2 * 24 * 2 / factorial(8), rel=1e-12)
    assert len(weights) == len(WEIGHTS) * 4**rule
    assert shares.min() > 0
    assert len(np.unique(shares.round(9), axis=0)) == len(shares)
