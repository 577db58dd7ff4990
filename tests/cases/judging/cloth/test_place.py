"""Where on the cloth something is highest."""

import numpy as np
import pytest

from tautlay.cases.judging.cloth.place import find_peak
from tautlay.hammock import example_hammock
from tautlay.meshing import build_model


@pytest.fixture(scope="module")
def model():
    return build_model(example_hammock(), None, 0.1)


def find_middles(model):
    return model.mesh.flat_corners().mean(axis=1)


@pytest.mark.parametrize("lift", [0.0, 1e-9, -1e-9, 1e-3, -1e-3])
def test_even_sides_are_told_together_whichever_is_a_little_higher(model, lift):
    """Noise that lifts one side must not choose the place that is told."""
    x, y = find_middles(model).T
    values = 5.0 - (x - 1.0) ** 2 - (np.abs(y) - 0.25) ** 2 + lift * np.sign(y)
    place, words = find_peak(model, values)
    assert place.both_sides
    assert place.y > 0
    assert words.endswith("either side of centre")
    assert (place.x, place.y) == pytest.approx((1.0, 0.25), abs=0.1)


@pytest.mark.parametrize(("side", "word"), [(1, "left"), (-1, "right")])
def test_one_side_is_named_where_it_is_clearly_higher(model, side, word):
    x, y = find_middles(model).T
    place, words = find_peak(model, 5.0 - (x - 1.0) ** 2 - (y - side * 0.25) ** 2)
    assert not place.both_sides
    assert np.sign(place.y) == side
    assert words.endswith(f" {word} of centre")
    assert "and" not in words
    assert place.corner is None


@pytest.mark.parametrize(("end", "x"), [("head", 0.0), ("foot", None)])
def test_corners_are_named(model, end, x):
    corner = model.mesh.points[model.nodes[f"{end} right corner"][0]]
    away = np.hypot(*(find_middles(model) - corner).T)
    one, words = find_peak(model, -away)
    assert (one.corner, one.both_sides) == (f"{end} right", False)
    assert words.startswith(f"right {end} corner, ")
    mirrored = np.hypot(*(find_middles(model) - corner * [1, -1]).T)
    both, words = find_peak(model, -np.minimum(away, mirrored) - 1.0)
    assert (both.corner, both.both_sides) == (f"{end} left", True)
    assert words.startswith(f"both {end} corners, ")
