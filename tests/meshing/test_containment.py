"""A person who has left the cloth is told of, and one who lies in it is not."""

import numpy as np
import pytest

from tautlay.hammock import LoadCase, example_hammock, example_person
from tautlay.meshing import build_model, check_containment


@pytest.fixture(scope="module")
def lying():
    return build_model(example_hammock(), example_person(), 0.1, load=LoadCase.LYING)


def move(model, *, node=None, by):
    """Return the first positions with the whole person, or one node, moved."""
    positions = model.start.copy()
    first = len(positions) - len(model.frame.names)
    if node is None:
        positions[first:] += by
    else:
        positions[first + model.frame.index(node)] += by
    return positions


def test_person_above_the_cloth_lies_in_it(lying):
    assert check_containment(lying, lying.start) is None


@pytest.mark.parametrize(
    ("by", "words"),
    [
        ([2.5, 0, 0], "slid out over the foot bar"),
        ([-2.5, 0, 0], "slid out over the head bar"),
        ([0, 1.2, 0], "rolled out over the left side"),
        ([0, -1.2, 0], "rolled out over the right side"),
        ([0, 0, -1.0], "slipped through the cloth: "),
    ],
)
def test_whole_person_outside(lying, by, words):
    assert check_containment(lying, move(lying, by=by)).startswith(words)


def test_limb_below_the_cloth(lying):
    found = check_containment(lying, move(lying, node="left ankle", by=[0, 0, -0.5]))
    assert found == "slipped through the cloth: left shank"


def test_head_that_the_cloth_has_drawn_back_from(lying):
    found = check_containment(lying, move(lying, node="head", by=[-0.5, 0, -0.4]))
    assert found == "hangs out over the head end: head"


def test_arm_over_the_side_counts_if_asked(lying):
    positions = move(lying, node="left elbow", by=[0, 0.6, -0.2])
    assert check_containment(lying, positions, arms=True).startswith("hangs out over the left side: left ")
    assert "arm" in check_containment(lying, positions, arms=True)
    assert check_containment(lying, positions, arms=False) is None


def test_arm_over_the_side_of_who_lies_on_the_back_is_let_hang(lying):
    positions = lying.start.copy()
    first = len(positions) - len(lying.frame.names)
    positions[first + lying.frame.index("left elbow")] += [0, 0.3, 0.3]  # the upper arm passes over the edge
    positions[first + lying.frame.index("left hand")] += [0, 0.6, 0.0]
    assert check_containment(lying, positions, arms=True).startswith("hangs out over the left side: left ")
    assert check_containment(lying, positions) is None


def test_arm_that_slipped_through_the_cloth_counts_on_the_back(lying):
    positions = move(lying, node="left elbow", by=[0, 0.0, -0.6])
    assert check_containment(lying, positions).startswith("slipped through the cloth: left ")
    assert "arm" in check_containment(lying, positions)
    assert check_containment(lying, positions, arms=False) is None


def test_spread_weight_cannot_escape():
    model = build_model(example_hammock(), example_person(), 0.15)
    assert check_containment(model, np.zeros_like(model.start)) is None
