"""The mesh is sound, graded and as symmetric as the design; values carry over without loss."""

import re
from dataclasses import replace

import numpy as np
import pytest

from tautlay.hammock import Arc, ArcShape, draw_outline, example_hammock
from tautlay.materials.display import format_number
from tautlay.materials.units import unit_factor
from tautlay.meshing import interpolate, locate, make_mesh
from tautlay.meshing.grading import grade_between, grade_line
from tautlay.meshing.grid import MOST_TRIANGLES, find_size_limits
from tautlay.meshing.transfer import stretch_over

BODY = example_hammock().body
LEAN = replace(BODY, left_arc=Arc(0.12), right_arc=Arc(0.2, ArcShape.CIRCLE), head_width=1.3, foot_width=1.0)
EVEN = replace(BODY, head_width=1.1, foot_width=1.1)


def angles(mesh):
    corners = mesh.flat_corners()
    sides = np.linalg.norm(np.roll(corners, -1, axis=1) - corners, axis=2)
    a, b, c = sides.T
    cosines = [(a * a + c * c - b * b) / (2 * a * c), (a * a + b * b - c * c) / (2 * a * b)]
    first, second = np.degrees(np.arccos(cosines))
    return np.stack([first, second, 180 - first - second])


@pytest.mark.parametrize("length", [0.3, 1.0, 2.37])
@pytest.mark.parametrize("size", [0.13, 0.05, 0.01])
def test_grading(length, size):
    cells = np.diff(grade_line(length, size / 3, size))
    assert cells.sum() == pytest.approx(length)
    assert cells.max() <= size * (1 + 1e-12)
    assert cells[0] <= size / 3 * 1.15  # a cell spans some growth itself
    ratio = cells[1:] / cells[:-1]
    assert max(ratio.max(), 1 / ratio.min()) <= 1.3 + 1e-9
    np.testing.assert_allclose(cells, cells[::-1], rtol=1e-12)
    assert len(cells) % 2 == 0


@pytest.mark.parametrize("lock", [0.02, 0.05, 0.1, 0.33])
def test_grading_stays_smooth_across_a_break(lock):
    stations = grade_between(np.array([0.0, lock, 2.0 - lock, 2.0]), 0.05 / 3, 0.05)
    cells = np.diff(stations)
    ratio = cells[1:] / cells[:-1]
    assert max(ratio.max(), 1 / ratio.min()) <= 1.3 * 1.1
    assert np.abs(stations - lock).min() < 1e-15
    np.testing.assert_allclose(stations + stations[::-1], 2.0, rtol=0, atol=1e-15)


@pytest.mark.parametrize("body", [BODY, LEAN, EVEN])
@pytest.mark.parametrize("size", [0.1, 0.05, 0.025])
def test_quality(body, size):
    outline = draw_outline(body)
    mesh = make_mesh(outline, size)
    areas = mesh.find_areas()
    assert areas.min() > 0
    assert angles(mesh).min() > 6.0
    middles = mesh.flat_corners().mean(axis=1)
    room = np.minimum(
        outline.left.place(middles[:, 0]) - middles[:, 1], middles[:, 1] - outline.right.place(middles[:, 0])
    )
    field = (room > 0.25) & (middles[:, 0] > 0.3) & (middles[:, 0] < outline.length - 0.3)
    assert angles(mesh)[:, field].min() > 24.0
    # chords cut a convex edge off on the outside; the error of the area falls with the square of the size
    assert 0 <= areas.sum() - outline.area < 0.2 * size**2


def test_every_triangle_meets_the_rim_with_one_side_at_most():
    mesh = make_mesh(draw_outline(LEAN), 0.1)
    numbers = mesh.numbers()
    rim = np.zeros(len(mesh.points), dtype=bool)
    rim[np.concatenate([numbers[0], numbers[-1], numbers[:, 0], numbers[:, -1]])] = True
    sides = np.concatenate([mesh.triangles[:, [k, (k + 1) % 3]] for k in range(3)])
    keys, first, count = np.unique(np.sort(sides, axis=1), axis=0, return_index=True, return_counts=True)
    assert set(count) == {1, 2}
    assert rim[keys[count == 1]].all()
    assert len(keys) - len(mesh.triangles) - len(mesh.points) == -1  # Euler: a disc
    owners = first[count == 1] % len(mesh.triangles)
    assert len(np.unique(owners)) == len(owners)
    for corner in (numbers[0, 0], numbers[0, -1], numbers[-1, 0], numbers[-1, -1]):
        assert (mesh.triangles == corner).sum() == 2


def as_set(mesh, mirror):
    """Triangles as sorted triples of rounded mirrored points."""
    points = np.round(mesh.points * mirror + np.where(np.array(mirror) < 0, [mesh.outline.length, 0.0], 0.0), 12) + 0.0
    return {frozenset(map(tuple, points[triangle])) for triangle in mesh.triangles}


def test_symmetric_left_to_right():
    mesh = make_mesh(draw_outline(BODY), 0.08)
    assert as_set(mesh, [1, 1]) == as_set(mesh, [1, -1])
    y = mesh.points[:, 1].reshape(len(mesh.stations), -1)
    np.testing.assert_array_equal(y, -y[:, ::-1])


def test_symmetric_head_to_foot():
    mesh = make_mesh(draw_outline(EVEN), 0.08, lock_length=0.15)
    assert as_set(mesh, [1, 1]) == as_set(mesh, [-1, 1])


@pytest.mark.parametrize("body", [BODY, LEAN])
def test_a_column_stands_at_the_lock(body):
    outline = draw_outline(body)
    mesh = make_mesh(outline, 0.06, lock_length=0.12)
    for edge, exact in ((outline.left, body is BODY), (outline.right, body is BODY)):
        lengths = np.concatenate([[0.0], np.cumsum(edge.arc_lengths(mesh.stations))])
        for wanted in (0.12, edge.length - 0.12):
            assert np.abs(lengths - wanted).min() < (1e-12 if exact else 0.004)


def test_half_is_the_left_half():
    whole, half = (make_mesh(draw_outline(BODY), 0.08, half=h) for h in (False, True))
    left = whole.points[whole.points[:, 1] >= 0]
    np.testing.assert_array_equal(left, half.points)
    assert len(half.triangles) * 2 == len(whole.triangles)


def test_limits_of_the_size_are_those_applied():
    outline = draw_outline(BODY)
    low, high = find_size_limits(outline)
    assert 0.9 * MOST_TRIANGLES < len(make_mesh(outline, low).triangles) <= MOST_TRIANGLES
    assert len(make_mesh(outline, high).triangles) >= 8
    for size, reason in ((low - 1e-6, f"more than {MOST_TRIANGLES:,} triangles"), (high + 1e-6, r"got [0-9.]+ cm\.$")):
        with pytest.raises(ValueError, match=f"mesh size must be between .*{reason}"):
            make_mesh(outline, size)


@pytest.mark.parametrize("width", [0.9, 1.003, 1.17])
@pytest.mark.parametrize("unit", ["m", "in", "ft"])
def test_limits_of_the_size_are_accepted_as_they_are_told(width, unit):
    """Three digits in whatever unit a reader asks for never lie outside."""
    outline = draw_outline(replace(BODY, head_width=width))
    with pytest.raises(ValueError, match="mesh size") as caught:
        make_mesh(outline, 3.0)
    factor = unit_factor("length", unit)
    words = caught.value.args[0].write(lambda value, *_: format_number(value / factor))
    low, high = (float(number) * factor for number in re.match(r".* between (\S+) and (\S+) for", words).groups())
    assert 0 < low < high
    make_mesh(outline, low)
    make_mesh(outline, high)


@pytest.mark.parametrize("size", [0.0, -1.0, 1e-4, 1.0, np.nan])
def test_senseless_sizes_are_refused(size):
    with pytest.raises(ValueError, match="mesh size must be between"):
        make_mesh(draw_outline(BODY), size)


@pytest.mark.parametrize("half", [False, True])
@pytest.mark.parametrize("body", [BODY, EVEN])
def test_points_are_found(body, half):
    mesh = make_mesh(draw_outline(body), 0.07, half=half)
    rng = np.random.default_rng(1)
    owner = rng.integers(len(mesh.triangles), size=2000)
    shares = rng.dirichlet([1, 1, 1], size=2000)
    points = np.einsum("pa,pax->px", shares, mesh.flat_corners()[owner])
    triangle, weights = locate(mesh, points)
    np.testing.assert_array_equal(triangle, owner)
    np.testing.assert_allclose(weights, shares, atol=1e-10)


def test_nodes_and_rim_are_found_and_outside_is_refused():
    mesh = make_mesh(draw_outline(LEAN), 0.1)
    triangle, weights = locate(mesh, mesh.points)
    np.testing.assert_allclose(np.einsum("pa,pax->px", weights, mesh.flat_corners()[triangle]), mesh.points, atol=1e-14)
    assert weights.min() > -1e-12
    with pytest.raises(ValueError, match="outside the body"):
        locate(mesh, np.array([[1.0, 0.0], [2.01, 0.0]]))
    with pytest.raises(ValueError, match="outside the body"):
        locate(mesh, np.array([[1.0, 0.9]]))


@pytest.mark.parametrize("body", [BODY, LEAN])
def test_linear_fields_carry_over_exactly(body):
    outline = draw_outline(body)
    coarse, fine = make_mesh(outline, 0.1), make_mesh(outline, 0.03)
    field = np.array([[1.3, -0.7, 0.2], [0.4, 2.2, -1.1]])
    carried = interpolate(coarse, coarse.points @ field + 5.0, fine)
    np.testing.assert_allclose(carried, fine.points @ field + 5.0, atol=1e-13)
    with pytest.raises(ValueError, match="same body"):
        interpolate(coarse, coarse.points, make_mesh(draw_outline(EVEN), 0.03))


def test_a_similar_body_takes_values_over_at_the_same_shares_of_length_and_width():
    outline = draw_outline(BODY)
    longer = draw_outline(replace(BODY, length=BODY.length * 1.01))
    coarse, fine = make_mesh(outline, 0.1), make_mesh(longer, 0.03)
    np.testing.assert_allclose(stretch_over(coarse, coarse.points, coarse), coarse.points, atol=1e-14)
    carried = stretch_over(coarse, coarse.points, fine)
    np.testing.assert_allclose(carried[:, 0] * 1.01, fine.points[:, 0], atol=1e-12)
    np.testing.assert_allclose(carried[:, 1], fine.points[:, 1], atol=2e-3)  # the arc is cut off by 10 cm cells
    with pytest.raises(ValueError, match="both whole or both half"):
        stretch_over(coarse, coarse.points, make_mesh(outline, 0.03, half=True))


def test_smooth_fields_carry_over_to_second_order():
    outline = draw_outline(BODY)
    fine = make_mesh(outline, 0.02)
    errors = []
    for size in (0.1, 0.05):
        mesh = make_mesh(outline, size)
        wave = np.sin(3 * mesh.points[:, :1]) * np.cos(2 * mesh.points[:, 1:])
        exact = np.sin(3 * fine.points[:, :1]) * np.cos(2 * fine.points[:, 1:])
        errors.append(np.sqrt(np.mean((interpolate(mesh, wave, fine) - exact) ** 2)))
    assert 3.0 < errors[0] / errors[1] < 5.5
