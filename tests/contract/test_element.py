"""Every kind of element keeps the contract of a term of the potential energy."""

import numpy as np
import pytest

from tautlay.solver import Cable, FabricLaw, Membrane, Pressure, Rod, SlidingCable, StiffnessModel, Strut

FLAT = np.array([[0.0, 0.0], [1.0, 0.1], [0.2, 0.9], [1.1, 1.0]])
REST = np.pad(FLAT, ((0, 0), (0, 1)))
TRIANGLES = np.array([[0, 1, 2], [1, 3, 2]])
PATH = [0, 1, 3, 2]
PAIRS = np.array([[0, 1], [1, 3], [3, 2]])
LENGTHS = np.linalg.norm(REST[PAIRS[:, 1]] - REST[PAIRS[:, 0]], axis=1)
LAW = (30e3, 25e3, 0.15, 100.0)

# name -> element, and the stretch at which it carries force
REGISTRY = {
    "taut membrane": (Membrane(TRIANGLES, FLAT[TRIANGLES], FabricLaw(*LAW)), (1.03, 1.02)),
    "wrinkled membrane": (Membrane(TRIANGLES, FLAT[TRIANGLES], FabricLaw(*LAW)), (1.03, 0.9)),
    "membrane both ways": (Membrane(TRIANGLES, FLAT[TRIANGLES], FabricLaw(*LAW, tension_only=False)), (1.03, 0.95)),
    "cable": (Cable(PAIRS, 60e3, LENGTHS), (1.02, 1.03)),
    "sliding cable": (SlidingCable(PATH, 60e3, LENGTHS.sum()), (1.02, 1.03)),
    "strut": (Strut(PAIRS, 1e5, LENGTHS), (0.98, 0.97)),
    "rod": (Rod(PAIRS, 1e5, LENGTHS), (0.98, 1.03)),
}


def stretch(factors):
    return REST * [*factors, 1.0] + 0.01 * np.random.default_rng(3).normal(size=REST.shape) * [0, 0, 1]


def find_force(element, positions):
    force = np.zeros_like(positions)
    element.add_force(positions, force)
    return force


def find_stiffness(element, positions, model):
    """Assemble blocks and rank-one columns densely."""
    matrix = np.zeros((positions.size, positions.size))
    for nodes, block in zip(element.connectivity, element.blocks(positions, model), strict=True):
        dofs = (3 * nodes[:, None] + np.arange(3)).ravel()
        matrix[np.ix_(dofs, dofs)] += block
    for nodes, gradient, stiffness in element.columns(positions, model):
        column = np.zeros_like(positions)
        np.add.at(column, nodes, gradient)
        matrix += stiffness * np.outer(column, column)
    return matrix


@pytest.fixture(params=list(REGISTRY))
def case(request):
    return REGISTRY[request.param]


def test_rigid_motion_gives_no_force(case):
    element, _ = case
    rotation, _ = np.linalg.qr(np.random.default_rng(1).normal(size=(3, 3)))
    rotation *= np.sign(np.linalg.det(rotation))
    force = find_force(element, REST @ rotation.T + [3.0, -2.0, 5.0])
    assert np.abs(force).max() < 1e-8


def test_taylor_remainders_decay_at_their_rates(case):
    """Second order without the stiffness, third with it: slopes of the remainder over four halvings."""
    element, factors = case
    x = stretch(factors)
    step = np.random.default_rng(2).normal(size=x.shape)
    energy, slope = element.energy(x), -np.vdot(find_force(element, x), step)
    bend = step.ravel() @ find_stiffness(element, x, StiffnessModel.EXACT) @ step.ravel()
    sizes = 2e-4 * 0.5 ** np.arange(5)
    change = np.array([element.energy(x + h * step) - energy for h in sizes])
    first = np.abs(change - sizes * slope)
    second = np.abs(change - sizes * slope - sizes**2 * bend / 2)
    assert np.polyfit(np.log(sizes), np.log(first), 1)[0] == pytest.approx(2, abs=0.1)
    assert np.polyfit(np.log(sizes), np.log(second), 1)[0] == pytest.approx(3, abs=0.15)


def test_positive_stiffness_is_symmetric_and_semi_definite(case):
    element, factors = case
    rng = np.random.default_rng(4)
    for _ in range(20):
        x = stretch(factors) + 0.05 * rng.normal(size=REST.shape)
        matrix = find_stiffness(element, x, StiffnessModel.POSITIVE)
        assert np.abs(matrix - matrix.T).max() <= 1e-9 * np.abs(matrix).max()
        assert np.linalg.eigvalsh(matrix).min() >= -1e-9 * np.abs(matrix).max()


def test_pressure_is_the_slope_of_its_energy_where_the_rim_is_held():
    """A tetrahedron's three upper faces on a held base: the energy's second-order remainder decays at its rate."""
    faces = np.array([[0, 1, 3], [1, 2, 3], [2, 0, 3]])
    base = np.array([[0.0, 0, 0], [1, 0, 0], [0.3, 0.9, 0], [0.4, 0.3, 0.6]])
    press = Pressure(faces, 500.0).attach(base)
    step = np.array([[0.0, 0, 0], [0, 0, 0], [0, 0, 0], [0.4, -0.7, 0.5]])
    x = base + 0.2 * step
    slope = -np.vdot(find_force(press, x), step)
    for h in (1e-2, 1e-3):
        assert press.energy(x + h * step) - press.energy(x - h * step) == pytest.approx(2 * h * slope, rel=1e-9)
