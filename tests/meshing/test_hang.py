"""Side view: lengths, angles and heights fit together."""

from dataclasses import replace

import numpy as np
import pytest

from tautlay.meshing import example_hammock, hang_hammock

HAMMOCK = example_hammock()
UNEVEN = replace(
    HAMMOCK, suspension=replace(HAMMOCK.suspension, head_strap_height=2.1, foot_strap_height=1.8, foot_leg_length=0.9)
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
