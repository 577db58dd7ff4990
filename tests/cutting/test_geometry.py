"""Crossings of lines in the plane, against shapely."""

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from tautlay.cutting.geometry import clip_line, contains, cross_lines, crosses_itself

PLACES = st.integers(-40, 40).map(lambda place: place / 7 + 0.013 * place**2)  # seldom three on a line


def points(least, most):
    return st.integers(least, most).flatmap(lambda count: arrays(float, (count, 2), elements=PLACES, unique=True))


@given(points(2, 12), points(2, 12))
def test_lines_cross_where_another_library_finds_it(first, second):
    found = cross_lines(first, second)
    line, other = shapely.LineString(first), shapely.LineString(second)
    assert all(line.distance(shapely.Point(at)) < 1e-9 and other.distance(shapely.Point(at)) < 1e-9 for at in found)
    for at in shapely.get_parts(line.intersection(other)):
        if at.geom_type == "Point":
            assert np.hypot(*(found - [at.x, at.y]).T).min() < 1e-7


@given(points(4, 10))
def test_a_ring_crosses_itself_where_another_library_says_so(ring):
    sides = [shapely.LineString([a, b]) for a, b in zip(ring, np.roll(ring, -1, axis=0), strict=True)]
    near = [
        a.distance(b)
        for place, a in enumerate(sides)
        for at, b in enumerate(sides)
        if 1 < abs(place - at) < len(sides) - 1
    ]
    assume(min(near) == 0.0 or min(near) > 1e-6)
    assert crosses_itself(ring) is (min(near) == 0.0)


def test_of_many_pieces_only_those_that_meet_are_compared():
    """A closed curve of 4000 pieces: seconds and gigabytes, if every pair were worked out."""
    turn = np.linspace(0.0, 2 * np.pi, 4001)[:-1]
    ring = np.stack([np.cos(turn), np.sin(turn)], -1)
    assert not crosses_itself(ring)
    bow = np.stack([np.cos(turn), np.sin(2 * turn)], -1)[np.r_[1:4000, 0]]
    assert crosses_itself(bow)


def test_what_lies_inside_is_kept():
    square = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
    wave = np.stack([np.linspace(-1.0, 2.0, 301), 0.5 + 0.8 * np.sin(np.linspace(0.0, 12.0, 301))], -1)
    runs = clip_line(wave, square)
    kept = shapely.LineString(wave).intersection(shapely.Polygon(square))
    assert sum(shapely.LineString(run).length for run in runs) == pytest.approx(kept.length, abs=1e-9)
    assert contains(square, wave).tolist() == shapely.contains_xy(shapely.Polygon(square), *wave.T).tolist()
