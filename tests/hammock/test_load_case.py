"""The factor of a falling weight against its motion, step by step."""

import pytest

from tautlay.hammock.load_case import SUDDEN_FACTOR


def fall(height):
    """Return the largest force on a spring over the weight that falls on it, m = k = W = 1: d = 1.

    Velocity Verlet; no energy goes in.
    """
    step, place, speed = 1e-4, 0.0, (2 * height) ** 0.5
    pull = 1.0 - place
    while speed >= 0.0:
        place += speed * step + pull * step**2 / 2
        before, pull = pull, 1.0 - place
        speed += (before + pull) * step / 2
    return place


@pytest.mark.parametrize(("height", "factor"), [(0.0, SUDDEN_FACTOR), (1.0, 2.732), (5.0, 4.317)])
def test_weight_let_go_pulls_as_the_formula_says(height, factor):
    assert fall(height) == pytest.approx(1 + (1 + 2 * height) ** 0.5, rel=1e-4)
    assert fall(height) == pytest.approx(factor, rel=1e-3)
