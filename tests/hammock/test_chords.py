"""Chords of curves against the distances of another library, and an extension as it is cut against the whole of it."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from tautlay.cases import read_design
from tautlay.hammock.chords import OFF, count_chords, pick_vertices
from tautlay.hammock.cone import draw_cone, draw_cut_cone

from .._patterns import write_design

ROUND = 1e-12  # m


@given(st.floats(0.001, 1.0))
def test_even_chords_of_a_parabola_are_close_enough(depth):
    count = count_chords(depth)
    x = np.linspace(-1.0, 1.0, count + 1)
    line = shapely.LineString(np.stack([x, depth * x**2], -1))
    middles = (x[:-1] + x[1:]) / 2
    away = shapely.distance(line, shapely.points(middles, depth * middles**2))
    assert away.max() <= OFF + ROUND
    assert count == 1 or (count - 1) ** 2 < depth / OFF  # one fewer would not do


@given(st.lists(st.tuples(st.floats(-1.0, 1.0), st.floats(-1.0, 1.0)), min_size=2, max_size=40))
def test_kept_vertices_are_close_to_all_of_them(points):
    line = np.cumsum([(0.1 + abs(x), y) for x, y in points], axis=0)
    kept = pick_vertices(line)
    assert {0, len(line) // 2, len(line) - 1} <= set(kept.tolist())
    thin = shapely.LineString(line[kept])
    assert shapely.distance(thin, shapely.points(line)).max() <= OFF + ROUND


@pytest.mark.parametrize("name", ["heron_ford", "otter_creek"])
def test_an_extension_is_cut_as_it_was_laid_flat(tmp_path, name):
    """As long, as wide and as even; each edge within the chords' error, and of fewer vertices."""
    for end in read_design(write_design(tmp_path, name)).hammock.ends:
        whole, cut = draw_cone(end), draw_cut_cone(end)
        assert len(cut.along) < 0.6 * len(whole.along)
        assert cut.width == whole.width
        assert np.hypot(*np.diff(cut.sewn, axis=0).T).sum() == pytest.approx(whole.width, abs=1e-9)
        assert shapely.hausdorff_distance(*map(shapely.LineString, (cut.sewn, whole.sewn))) < 2 * OFF
        assert cut.sewn * [1.0, -1.0] == pytest.approx(cut.sewn[::-1], abs=1e-9)
        assert cut.opening_angle == pytest.approx(whole.opening_angle, abs=1e-4)
