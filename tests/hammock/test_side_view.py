"""Side view: lengths, angles and heights fit together."""

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from tautlay.hammock import example_hammock, example_person, hang_hammock
from tautlay.hammock.side_view import find_distance_limits, reach_of_ropes
from tautlay.meshing import hang_angle_limits
from tautlay.meshing.hang_angle_limits import estimate_distances, find_angle_limits

HAMMOCK = example_hammock()
UNEVEN = replace(
    HAMMOCK, suspension=HAMMOCK.suspension.change({"strap_height": 2.1}, {"strap_height": 1.8, "leg_length": 0.9})
)


@pytest.mark.parametrize("hammock", [HAMMOCK, UNEVEN])
@pytest.mark.parametrize("angle", [15, 30, 45, 60])
def test_hang_angle_and_tree_distance_agree(hammock, angle):
    s = replace(hammock.suspension, hang_angle=np.radians(angle))
    hang = hang_hammock(replace(hammock, suspension=s))
    assert (hang.head_angle + hang.foot_angle) / 2 == pytest.approx(np.radians(angle), abs=1e-12)
    back = hang_hammock(hammock, hang.tree_distance)
    assert back.head_angle == pytest.approx(hang.head_angle, abs=1e-9)
    assert back.tree_distance == pytest.approx(hang.tree_distance, abs=1e-10)


@pytest.mark.parametrize("hammock", [HAMMOCK, UNEVEN])
def test_the_chain_closes(hammock):
    hang = hang_hammock(hammock)
    x, z = hang.trace_body(np.linspace(0, hang.length, 4001))
    assert np.hypot(np.diff(x), np.diff(z)).sum() == pytest.approx(hang.length, rel=1e-6)
    for place, head in ((0, True), (-1, False)):
        rope = hang.head_rope if head else hang.foot_rope
        end = hang.trace_rope(head=head, distance=rope)
        assert (x[place], z[place]) == pytest.approx(end, abs=1e-12)
        tree = hang.trace_rope(head=head, distance=0.0)
        assert np.hypot(*(np.array(end) - tree)) == pytest.approx(rope)
        assert abs(tree[0]) == pytest.approx(hang.tree_distance / 2)
    assert z.min() == pytest.approx(hang.lowest, abs=1e-6)


def test_symmetric_arc_by_hand():
    # Geometry: two ropes r and an arc of length L turning by 2a span 2 r cos a + L sin(a)/a.
    hang = hang_hammock(HAMMOCK)
    rope = 1.0 + np.sqrt(0.75**2 - 0.43**2)
    span = 2 * rope * np.cos(np.pi / 6) + 2.0 * 0.5 / (np.pi / 6)
    assert hang.tree_distance == pytest.approx(span, rel=1e-12)


@pytest.mark.parametrize("mass", [45.0, 80.0, 120.0])
def test_estimated_limits_of_the_angle_lie_where_trees_run_out(mass):
    """Between the limits the distance falls steadily with the angle; a heavier person keeps the lines steeper."""
    person = replace(example_person(), mass=mass)
    low, high = find_angle_limits(HAMMOCK, person)
    near, far = find_distance_limits(HAMMOCK)
    found = estimate_distances(HAMMOCK, person, np.array([low, (low + high) / 2, high]))
    assert far >= found[0] > found[1] > found[2] >= near
    assert find_angle_limits(HAMMOCK, replace(person, mass=mass + 10))[0] > low


def test_string_under_its_own_even_weight_is_a_catenary(monkeypatch):
    """Ropes that hardly stretch and L asinh(tan a) / tan a, the span of a catenary (closed form)."""

    def spread(person, mesh, beyond):
        pieces = np.diff(mesh.stations) / 2
        forces = np.zeros((len(mesh.points), 3))
        forces[mesh.level(0), 2] = -1e-6 * (np.append(pieces, 0) + np.append(0, pieces))
        return SimpleNamespace(forces=forces)

    monkeypatch.setattr(hang_angle_limits, "spread_person", spread)
    slope = np.tan(np.radians([20.0, 40.0, 70.0]))
    ropes = sum(reach_of_ropes(HAMMOCK)) / np.sqrt(1 + slope**2)
    found = estimate_distances(HAMMOCK, example_person(), np.arctan(slope))
    np.testing.assert_allclose(found, ropes + HAMMOCK.body.length * np.arcsinh(slope) / slope, rtol=2e-3)
