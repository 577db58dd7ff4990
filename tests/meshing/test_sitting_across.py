"""How somebody sits down across: the frame bent, laid on the cloth, and kept upright."""

from dataclasses import replace

import numpy as np
import pytest

from tautlay.hammock import LoadCase, example_hammock, example_person
from tautlay.hammock.person import Arms, LyingSide, Posture
from tautlay.meshing import build_model, make_frame
from tautlay.meshing.sitter_frame import make_sitter
from tautlay.meshing.sitting_across import hold_sitter, let_seat_go, seat_person
from tautlay.meshing.upright_hold import UprightHold
from tautlay.solver import relax


def test_hold_is_the_slope_of_its_energy_without_a_force_and_turns_with_the_trunk():
    rng = np.random.default_rng(4)
    places = rng.normal(size=(4, 3)) + np.array([[0, 0, 0], [0, 0, 0], [0, 0, 3], [0, 0, 3]])
    for axis in (0, 1):
        hold = UprightHold(np.arange(4), np.repeat([-0.5, 0.5], 2), axis, 70.0, offset=0.1)
        force, way = np.zeros((4, 3)), rng.normal(size=(4, 3))
        hold.add_force(places, force)
        slope = (hold.energy(places + 1e-6 * way) - hold.energy(places - 1e-6 * way)) / 2e-6
        assert slope == pytest.approx(-np.vdot(force, way), rel=1e-6)
        np.testing.assert_allclose(force.sum(axis=0), 0.0, atol=1e-12)
        moment = np.cross(places, force).sum(axis=0)
        assert abs(moment[1 - axis]) == pytest.approx(abs(hold.result(places).force), rel=1e-9)


def test_sitter_weighs_the_same_bones_keep_their_length_and_lying_makes_no_difference():
    person = example_person()
    lying = make_frame(replace(person, posture=Posture(arms=Arms.FOLDED, pillow=0.0)))
    sitting = make_sitter(person)
    assert sitting.masses.sum() == pytest.approx(person.mass)
    lengths = [
        np.linalg.norm(frame.places[frame.bones[:, 1]] - frame.places[frame.bones[:, 0]], axis=1)
        for frame in (lying, sitting)
    ]
    np.testing.assert_allclose(*lengths, rtol=1e-9)
    posture = Posture(lie=LyingSide.SIDE, offset=0.1, knee_pad=0.05, pillow=0.2)
    np.testing.assert_array_equal(make_sitter(replace(person, posture=posture)).places, sitting.places)


@pytest.fixture(scope="module")
def hung():
    """A hammock that is the same at both ends, with the spread weight of a sitter in the middle of its length."""
    hammock, person = example_hammock(), example_person()
    even = replace(hammock, body=replace(hammock.body, foot_width=hammock.body.head_width))
    middle = replace(person, head_from_bar=even.body.length / 2 - 0.47 * person.stature)
    model = build_model(even, middle, 0.12, load=LoadCase.SITTING)
    spread = build_model(even, middle, 0.12)
    start = relax(spread.structure, tolerance=1e-4).positions
    return model, relax(model.structure, start=start, tolerance=1e-6)


def test_body_first_clears_the_cloth_and_adds_its_weight_alone(hung):
    model, state = hung
    seated, start, place = seat_person(model, state.positions)
    contact = seated.elements["contact"]
    assert not contact.find_pierced(start).any()
    on_cloth = ["calf" not in name and "shank" not in name for name in seated.frame.flesh]
    found = seated.structure.find_term(contact).result(start)
    np.testing.assert_array_equal(found.depth[on_cloth], 0.0)
    np.testing.assert_allclose(seated.structure.load.sum(axis=0), model.structure.load.sum(axis=0), atol=1e-9)
    assert abs(place) < 0.3
    with pytest.raises(ValueError, match="under the spread load"):
        seat_person(seated, start)


def test_both_thighs_bear_alike_in_an_even_hammock_and_the_trees_carry_the_weight(hung):
    model, state = hung
    seated, start, place = seat_person(model, state.positions)
    held = hold_sitter(seated, place, -0.08)
    found = relax(held.structure, start=start, tolerance=1e-6, gear="implicit", max_iterations=150)
    assert found.converged
    np.testing.assert_allclose(found.reactions.sum(axis=0), -held.structure.load.sum(axis=0), atol=0.05)
    push = found[held.elements["contact"]].by_segment
    left, right = (push[held.frame.flesh.index(f"{side} thigh"), 2] for side in ("left", "right"))
    assert left == pytest.approx(right, rel=0.03)
    assert abs(float(found[held.elements["turn hold"]].force)) < 5.0
    free = let_seat_go(held)
    assert len(free.structure.elements) == len(held.structure.elements) - 3
