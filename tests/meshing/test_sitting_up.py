"""What raises a trunk, and what holds seat and neck meanwhile."""

import numpy as np
import pytest

from tautlay.hammock import LoadCase, example_hammock, example_person
from tautlay.meshing import build_model
from tautlay.meshing.pitch_hold import PitchHold
from tautlay.meshing.sitting_up import hold_seat, make_trunk_hold, measure_trunk, raise_trunk, straighten_neck
from tautlay.solver import relax


def test_hold_is_the_slope_of_its_energy_and_nothing_outside_takes_it():
    rng = np.random.default_rng(2)
    places = rng.normal(size=(7, 3)) - np.arange(7)[:, None] * [0.4, 0, 0]
    cords = np.array([-3.0, 1.0, 2.0])
    hold = PitchHold(np.array([0, 1, 2, 3]), np.array([4, 5, 6]), np.array([-0.5, -0.5, 0.5, 0.5]), cords, 80.0)
    force, way = np.zeros((7, 3)), rng.normal(size=(7, 3))
    hold.add_force(places, force)
    slope = (hold.energy(places + 1e-6 * way) - hold.energy(places - 1e-6 * way)) / 2e-6
    assert slope == pytest.approx(-np.vdot(force, way), rel=1e-6)
    np.testing.assert_allclose(force.sum(axis=0), 0.0, atol=1e-12)
    np.testing.assert_allclose(np.cross(places, force).sum(axis=0)[1], 0.0, atol=1e-12)
    c, s = np.cos(0.3), np.sin(0.3)
    turned = places @ np.array([[c, 0, s], [0, 1, 0], [-s, 0, c]]) + [1.0, 2.0, 3.0]
    assert hold.energy(turned) == pytest.approx(hold.energy(places), rel=1e-9)


@pytest.fixture(scope="module")
def sitting():
    """Somebody who sits up in the example of the library, in steps of 12 degrees."""
    hammock, person = example_hammock(), example_person()
    spread = build_model(hammock, person, 0.12)
    hung = relax(spread.structure, tolerance=1e-4)
    model = build_model(hammock, person, 0.12, load=LoadCase.LYING)
    lying = relax(model.structure, start=model.carry_over(spread, hung.positions), tolerance=1e-6).positions
    seated = straighten_neck(hold_seat(model, lying))
    places = lying
    for rise in np.radians([12.0, 24.0, 36.0, 48.0, 60.0]):
        raised = raise_trunk(seated, make_trunk_hold(seated, lying, float(rise)))
        state = relax(raised.structure, start=places, tolerance=1e-6, gear="implicit", max_iterations=300)
        assert state.converged
        places = state.positions
    return lying, raised, state


@pytest.mark.slow
def test_trunk_is_raised_by_hands_and_trees_carry_the_weight_alone(sitting):
    lying, model, state = sitting
    assert measure_trunk(model, state.positions) > measure_trunk(model, lying) + np.radians(45.0)
    np.testing.assert_allclose(state.reactions.sum(axis=0), -model.structure.load.sum(axis=0), atol=1e-3)


@pytest.mark.slow
def test_seat_stays_where_it_was_on_the_cloth_and_the_neck_is_straight(sitting):
    lying, model, state = sitting
    assert abs(state[model.elements["hold"]].slip) < 1e-3
    first = len(lying) - len(model.frame.names)
    neck = np.flatnonzero(model.elements["joints"].connectivity[:, 1] == first + model.frame.index("neck"))
    flat = model.elements["joints"].result(np.concatenate([lying[:first], model.frame.places])).angle[neck]
    np.testing.assert_allclose(state[model.elements["joints"]].angle[neck], flat, atol=np.radians(10.0))


@pytest.mark.slow
def test_hands_give_what_the_weight_above_the_hips_takes(sitting):
    """Statics by hand: at 69 degrees the back is off the cloth; what touches it still are buttocks and hands."""
    _, model, state = sitting
    frame, joints = model.frame, model.elements["joints"]
    body = state.positions[-len(frame.names) :]
    levels = ("head", "neck", "breast", "shoulder", "blade", "chest", "waist", "elbow", "hand")
    upper = [row for row, name in enumerate(frame.names) if name.split()[-1] in levels]
    hip = body[[frame.index("left hip"), frame.index("right hip")], 0].mean()
    weight = frame.masses[upper] * 9.80665 @ (hip - body[upper, 0])
    bent = [frame.names[node - state.positions.shape[0]].endswith("hip") for node in joints.connectivity[:, 1]]
    by_hand = weight + state[joints].moment[bent].sum()
    assert state[model.elements["trunk hold"]].force == pytest.approx(by_hand, rel=0.15)


@pytest.mark.slow
def test_moment_of_the_hands_is_the_slope_of_the_energy(sitting):
    """Castigliano over half a degree to either side, from shape to shape."""
    lying, model, state = sitting
    free = model.structure.drop_element(model.elements["trunk hold"])
    energies = []
    for rise in np.radians([59.5, 60.5]):
        hold = make_trunk_hold(model, lying, float(rise))
        found = relax(
            free.add_element(hold), start=state.positions, tolerance=1e-7, gear="implicit", max_iterations=300
        )
        assert found.converged
        energies.append(found.energy)
    slope = (energies[1] - energies[0]) / np.radians(1.0)
    assert slope == pytest.approx(state[model.elements["trunk hold"]].force, rel=0.01)
