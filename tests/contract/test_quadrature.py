"""The points at which contact is judged."""

from math import factorial

import pytest

from tautlay.solver.quadrature import CORNER_SHARES, WEIGHTS


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
