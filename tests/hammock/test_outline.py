"""Cut edges against closed forms of plane geometry."""

import numpy as np
import pytest

from tautlay.hammock import Arc, ArcShape, Body, draw_outline, find_sag
from tautlay.materials import Fabric

FABRIC = Fabric("invented", "ripstop nylon", 0.055, 30e3, 25e3, 0.15, 200.0, 9e3, 8e3)
SHAPES = list(ArcShape)


def outline_of(shape, depth=0.2, length=2.0, head=1.2, foot=1.0):
    return draw_outline(Body(length, head, foot, Arc(depth, shape), Arc(depth, shape), FABRIC))


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("depth", [0.0, 1e-7, 0.01, 0.2, 0.4])
@pytest.mark.parametrize(("head", "foot"), [(1.2, 1.2), (1.3, 1.0), (1.0, 1.3)])
def test_edges_pass_through_corners_and_depth(shape, depth, head, foot):
    outline = outline_of(shape, depth, 2.1, head, foot)
    x = np.array([0.0, 1.05, 2.1])
    wanted = np.array([head / 2, (head + foot) / 4 - depth, foot / 2])
    np.testing.assert_allclose(outline.left.place(x), wanted, rtol=0, atol=1e-13)
    np.testing.assert_array_equal(outline.right.place(x), -outline.left.place(x))


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("depth", [1e-6, 0.03, 0.25])
def test_slope_is_the_derivative_of_height(shape, depth):
    curve = outline_of(shape, depth).left.curve
    x = np.linspace(0.1, 1.9, 19)
    steps = np.array([1e-2, 5e-3])
    errors = [np.abs((curve.height(x + h) - curve.height(x - h)) / (2 * h) - curve.slope(x)).max() for h in steps]
    assert errors[0] < 1e-3
    assert errors[1] < errors[0] / 3.9 or errors[0] < 1e-11  # second order; a parabola is exact


def test_circle_is_a_circle():
    # Geometry: radius from chord c and sag s, R = (c^2/4 + s^2)/(2 s); arc 2 R asin(c / 2R).
    outline = outline_of(ArcShape.CIRCLE, 0.15, 2.0, 1.2, 1.2)
    radius = (1.0 + 0.15**2) / 0.3
    assert radius == pytest.approx(3.40833333, abs=1e-8)
    assert outline.left.length == pytest.approx(2 * radius * np.arcsin(1 / radius), rel=1e-14)
    x = np.linspace(0, 2, 11)
    centre = 0.6 - 0.15 + radius
    np.testing.assert_allclose(np.hypot(x - 1, outline.left.place(x) - centre), radius, rtol=1e-14)


def test_leaning_circle_keeps_one_radius():
    outline = outline_of(ArcShape.CIRCLE, 0.2, 2.0, 1.3, 1.0)
    x = np.linspace(0, 2, 9)
    y = outline.left.place(x)
    rows = np.stack([x, y, np.ones_like(x)], axis=1)
    fit, *_ = np.linalg.lstsq(rows, x**2 + y**2, rcond=None)
    np.testing.assert_allclose(rows @ fit, x**2 + y**2, rtol=0, atol=1e-13)


def test_parabola_length():
    # Geometry: arc of a parabola of chord L and sag d, sqrt(L^2 + 16 d^2)/2 + L^2/(8 d) asinh(4 d/L).
    for depth in (0.02, 0.2, 0.5):
        outline = outline_of(ArcShape.PARABOLA, depth, 2.0, 1.4, 1.4)
        exact = np.hypot(2.0, 4 * depth) / 2 + 4.0 / (8 * depth) * np.arcsinh(2 * depth)
        assert outline.left.length == pytest.approx(exact, rel=1e-14)


def test_catenary_is_a_catenary():
    # Definition: y'' = cosh(...)/a, so y'' / sqrt(1 + y'^2) = 1/a everywhere; length a [sinh] between the ends.
    outline = outline_of(ArcShape.CATENARY, 0.25, 2.0, 1.3, 1.1)
    curve = outline.left.curve
    x = np.linspace(0.0, 2.0, 2001)
    slope = curve.slope(x)
    bend = np.gradient(slope, x, edge_order=2) / np.hypot(1, slope)
    np.testing.assert_allclose(bend, 1 / curve.parameter, rtol=1e-6)
    exact = curve.parameter * (slope[-1] - slope[0])  # y' = sinh, so the arc is a (y'_2 - y'_1)
    assert outline.left.length == pytest.approx(exact, rel=1e-13)


def test_shallow_arcs_of_all_shapes_agree():
    lengths = [outline_of(shape, 0.002).left.length for shape in SHAPES]
    # Series: the shapes differ from L + 8 d^2/(3 L) by terms of order d^4/L^3 = 2e-12 (and the lean of 0.1).
    assert max(lengths) - min(lengths) < 1e-9


def test_area_and_waist_of_a_parabola():
    # Geometry: a parabolic segment covers two thirds of chord times sag.
    outline = outline_of(ArcShape.PARABOLA, 0.2, 2.0, 1.2, 1.2)
    assert outline.area == pytest.approx(2.0 * 1.2 - 2 * (2 / 3) * 2.0 * 0.2, rel=1e-14)
    assert outline.waist == pytest.approx((1.0, 0.8))


@pytest.mark.parametrize("shape", SHAPES)
def test_station_of_a_distance_along_the_edge(shape):
    edge = outline_of(shape).left
    for distance in (0.0, 0.15, 1.0, edge.length):
        x = edge.find_station(distance)
        assert edge.arc_lengths(np.linspace(0, x, 33)).sum() == pytest.approx(distance, abs=1e-12)
    with pytest.raises(ValueError, match="distance must lie on the edge"):
        edge.find_station(edge.length + 0.01)


def test_circle_turning_back_is_refused():
    with pytest.raises(ValueError, match="turns back under its corners"):
        outline_of(ArcShape.CIRCLE, 1.2, 2.0, 4.0, 4.0)


def test_left_and_right_may_differ():
    body = Body(2.0, 1.2, 1.0, Arc(0.1), Arc(0.2, ArcShape.CIRCLE), FABRIC)
    outline = draw_outline(body)
    assert float(outline.width(np.array(1.0))) == pytest.approx(1.1 - 0.3)
    assert float(outline.middle(np.array(1.0))) == pytest.approx(0.05)


def test_cloth_in_an_arc_under_a_bar():
    # Common practice, no source: 48 in of cloth over a 36 in bar hangs about 13.3 in deep.
    inch = 0.0254
    assert float(find_sag(np.array(48 * inch), np.array(36 * inch))) / inch == pytest.approx(13.3, abs=0.05)
    # Geometry: half a circle.
    assert float(find_sag(np.array(np.pi), np.array(2.0))) == pytest.approx(1.0, abs=1e-12)
    assert float(find_sag(np.array(1.0), np.array(1.0))) == 0.0
