"""Every kind of element keeps the contract of a term of the potential energy."""

import numpy as np
import pytest

import tautlay.solver
from tautlay.solver import (
    Cable,
    Contact,
    Element,
    FabricLaw,
    Friction,
    Hinge,
    Joint,
    Membrane,
    Pressure,
    Rod,
    SlidingCable,
    StiffnessModel,
    Structure,
    Strut,
    relax,
)

FLAT = np.array([[0.0, 0.0], [1.0, 0.1], [0.2, 0.9], [1.1, 1.0], [2.0, 0.2]])  # the last in line with the first two
REST = np.pad(FLAT, ((0, 0), (0, 1)))
TRIANGLES = np.array([[0, 1, 2], [1, 3, 2]])
PATH = [0, 1, 3, 2]
PAIRS = np.array([[0, 1], [1, 3], [3, 2]])
LENGTHS = np.linalg.norm(REST[PAIRS[:, 1]] - REST[PAIRS[:, 0]], axis=1)
# where the body's point lies in the plane of the triangle
FRICTION_SHARES = np.linalg.solve([*FLAT[:3].T, np.ones(3)], [*(0.7 * FLAT[3] + 0.3 * FLAT[4]), 1.0])
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
    "joint": (Joint([[0, 1, 4]], 1e4), (1.02, 0.98)),
    "hinge": (Hinge([[0, 1, 4, 0, 2]], [[-30.0, 20.0]], [[-6.0, 4.0]], 10.0, 5e3, 2e4), (1.02, 0.98)),
    "friction": (Friction([[3, 4]], [[0.7, 0.3]], [[0, 1, 2]], [FRICTION_SHARES], [4e4], 0.5), (1.02, 0.97)),
    "contact": (Contact([[0, 1, 2]], [[3, 4], [3, 3]], [[0.6, 0.5], [0.6, 0.6]], 1e4).attach(REST), (0.75, 0.7)),
}


# states on the border between carrying and not: the force has a kink there and the energy none
KINKS = {
    "membrane, taut to wrinkled": ("taut membrane", (1.03, None)),
    "membrane, wrinkled to slack": ("wrinkled membrane", (1.0, 0.95)),
    "cable": ("cable", (1.0, 1.0)),
    "sliding cable": ("sliding cable", (1.0, 1.0)),
    "strut": ("strut", (1.0, 1.0)),
}
SPENT = {
    "taut membrane": (0.97, 0.96),
    "cable": (0.97, 0.96),
    "sliding cable": (0.97, 0.96),
    "strut": (1.02, 1.03),
    "contact": (1.02, 1.03),
}
HULL = np.array([[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]])  # a closed tetrahedron, normals outwards
TETRAHEDRON = np.array([[0.0, 0, 0], [1, 0, 0], [0.3, 0.9, 0], [0.4, 0.3, 0.8]])


def turn(seed=1):
    """A rotation far from the identity."""
    rotation, _ = np.linalg.qr(np.random.default_rng(seed).normal(size=(3, 3)))
    return rotation * np.sign(np.linalg.det(rotation))


def fit_rate(sizes, remainders):
    return np.polyfit(np.log(sizes), np.log(remainders), 1)[0]


def stretch(factors):
    return REST * [*factors, 1.0] + 0.01 * np.random.default_rng(3).normal(size=REST.shape) * [0, 0, 1]


def find_force(element, positions):
    force = np.zeros_like(positions)
    element.add_force(positions, force)
    return force


def find_stiffness(element, positions, model):
    """Assemble blocks and rank-one columns densely."""
    matrix = np.zeros((positions.size, positions.size))
    for (rows, cols), blocks in zip(element.couplings(), element.stiffness_blocks(positions, model), strict=True):
        for left, right, block in zip(rows, cols, blocks, strict=True):
            down, across = ((3 * nodes[:, None] + np.arange(3)).ravel() for nodes in (left, right))
            np.add.at(matrix, np.ix_(down, across), block)
            if rows is not cols:
                np.add.at(matrix, np.ix_(across, down), block.T)
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
    force = find_force(element, REST @ turn().T + [3.0, -2.0, 5.0])
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
    assert fit_rate(sizes, first) == pytest.approx(2, abs=0.1)
    assert fit_rate(sizes, second) == pytest.approx(3, abs=0.15)


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


def test_every_kind_of_element_is_held_to_the_contract():
    """Whatever the solver offers as an element has to stand in this registry."""
    offered = {getattr(tautlay.solver, name) for name in tautlay.solver.__all__}
    kinds = {kind for kind in offered if isinstance(kind, type) and issubclass(kind, Element)} - {Element}
    assert kinds == {type(element) for element, _ in REGISTRY.values()} | {Pressure}


def test_loaded_element_turns_with_its_nodes(case):
    """Frame indifference: a rigid motion leaves the energy and turns the forces, which balance themselves."""
    element, factors = case
    x = stretch(factors)
    rotation = turn(seed=5)
    moved = x @ rotation.T + [3.0, -2.0, 5.0]
    force = find_force(element, x)
    scale = np.abs(force).max()
    assert scale > 10
    assert element.energy(moved) == pytest.approx(element.energy(x), rel=1e-10)
    np.testing.assert_allclose(find_force(element, moved), force @ rotation.T, atol=1e-9 * scale)
    np.testing.assert_allclose(force.sum(axis=0), 0.0, atol=1e-12 * scale)
    np.testing.assert_allclose(np.cross(x, force).sum(axis=0), 0.0, atol=1e-12 * scale)


@pytest.mark.parametrize(("name", "factors"), KINKS.values(), ids=KINKS)
def test_energy_has_no_kink_where_the_element_starts_to_carry(name, factors):
    """Between carrying and not the energy is continuously differentiable: the remainder still decays with h^2."""
    element, _ = REGISTRY[name]
    along, across = factors
    if across is None:  # the width at which the stress across has just gone: E22 = -(weft stress share) E11
        D = FabricLaw(*LAW).stiffness()
        across = np.sqrt(1 - D[0, 1] / D[1, 1] * (along**2 - 1))
    x = REST * [along, across, 1.0]
    pull = np.stack([x[:, 0], x[:, 1], 0 * x[:, 0]], axis=1)
    sides = []
    for step in (pull, -pull):
        energy, slope = element.energy(x), -np.vdot(find_force(element, x), step)
        sizes = 1e-3 * 0.5 ** np.arange(5)
        left = np.abs([element.energy(x + h * step) - energy - h * slope for h in sizes])
        sides.append(left[-1])
        if left.max() > 1e-9:
            assert fit_rate(sizes, left) >= 1.95
    assert max(sides) > 1e-6
    assert max(sides) != pytest.approx(min(sides), rel=0.02)  # it is a border: both sides differ


@pytest.mark.parametrize(("name", "factors"), SPENT.items(), ids=SPENT)
def test_element_that_cannot_carry_stores_nothing(name, factors):
    element, _ = REGISTRY[name]
    x = REST * [*factors, 1.0]
    assert element.energy(x) == 0.0
    assert not find_force(element, x).any()
    assert not find_stiffness(element, x, StiffnessModel.EXACT).any()
    assert not find_stiffness(element, x, StiffnessModel.POSITIVE).any()


def test_stiffness_at_random_states_is_semi_definite_and_below_its_bound(case):
    """At states with taut, wrinkled and slack parts: 0 <= K <= diag(bound), which keeps fictitious masses safe."""
    element, _ = case
    rng = np.random.default_rng(6)
    for _ in range(40):
        x = REST * rng.uniform(0.8, 1.2, 3) + 0.1 * rng.normal(size=REST.shape)
        K = find_stiffness(element, x @ turn(7).T, StiffnessModel.POSITIVE)
        bound = np.zeros(len(x))
        element.add_bound(x @ turn(7).T, bound)
        most = bound.max()
        np.testing.assert_allclose(K, K.T, atol=1e-10 * most)
        assert np.linalg.eigvalsh(K).min() >= -1e-10 * most
        assert np.linalg.eigvalsh(np.diag(np.repeat(bound, 3)) - K).min() >= -1e-10 * most


def test_pressure_in_a_closed_hull():
    """Inside a closed surface: work p times the change of volume, no resultant, symmetric stiffness, rates 2 and 3."""
    p = 500.0
    press = Pressure(HULL, p).attach(TETRAHEDRON)
    rng = np.random.default_rng(8)
    x = TETRAHEDRON + 0.1 * rng.normal(size=TETRAHEDRON.shape)

    def volume(y):
        return np.linalg.det(y[1:] - y[0]) / 6

    assert press.energy(x) == pytest.approx(-p * (volume(x) - volume(TETRAHEDRON)), rel=1e-12)
    force = find_force(press, x)
    np.testing.assert_allclose(force.sum(axis=0), 0.0, atol=1e-10)
    np.testing.assert_allclose(np.cross(x, force).sum(axis=0), 0.0, atol=1e-10)
    moved = x @ turn().T + [3.0, -2.0, 5.0]
    np.testing.assert_allclose(find_force(press, moved), force @ turn().T, atol=1e-9)
    assert press.energy(moved) == pytest.approx(press.energy(x), rel=1e-9)
    K = find_stiffness(press, x, StiffnessModel.EXACT)
    np.testing.assert_allclose(K, K.T, atol=1e-10 * np.abs(K).max())
    step = rng.normal(size=x.shape)
    sizes = 1e-2 * 0.5 ** np.arange(5)
    change = np.array([press.energy(x + h * step) - press.energy(x) for h in sizes])
    first = change + sizes * np.vdot(force, step)
    second = first - sizes**2 * (step.ravel() @ K @ step.ravel()) / 2
    assert fit_rate(sizes, np.abs(first)) == pytest.approx(2, abs=0.1)
    assert fit_rate(sizes, np.abs(second)) == pytest.approx(3, abs=0.1)


@pytest.mark.parametrize("gravity", [-9.8, (0, -9.8), (0, 0, np.nan)])
def test_gravity_is_a_finite_vector_or_refused(gravity):
    with pytest.raises(ValueError, match="gravity must be three finite numbers"):
        Structure(REST, [REGISTRY["cable"][0]], fixed=np.ones(len(REST), bool), gravity=gravity)


@pytest.mark.parametrize(
    "option", [{"tolerance": 5.0}, {"max_iterations": 0}, {"max_iterations": 1.5}, {"step_cap": 0}]
)
def test_options_without_sense_are_refused(option):
    structure = Structure(REST, [REGISTRY["cable"][0]], fixed=np.arange(len(REST)) % 3 == 0)
    with pytest.raises(ValueError, match=next(iter(option))):
        relax(structure, **option)


def test_nominal_line_stress_is_the_force_across_a_flat_cut():
    """Strip of cloth gathered to half its width and pulled: true line stress doubles, that of the cut strip does not.

    Force N = stiffness x Green strain x stretch x flat width (derived), here 0.105 x 1.1 x 1e4 N/m.
    """
    law = FabricLaw(1e4, 1e4, 0.0, 5e3)
    strip = Membrane([[0, 1, 2]], [[[0, 0], [1, 0], [0, 1]]], law)
    found = strip.result(np.array([[0, 0, 0], [1.1, 0, 0], [0, 0.5, 0]], float))
    pull = 0.105 * 1.1 * 1e4
    np.testing.assert_allclose(found.nominal, [[pull, 0]], atol=1e-9 * pull)
    np.testing.assert_allclose(found.tension, [[pull / 0.5, 0]], atol=1e-9 * pull)


@pytest.mark.parametrize("factors", [(1.02, 1.03), (0.97, 0.96), (1.0, 1.0)])
def test_smoothed_cords_tend_to_the_exact_ones(factors):
    """Energy with mu and its logarithm, force with the root of mu, at rest; the force is the slope of the energy."""
    cord, x = REGISTRY["cable"][0].attach(REST), stretch(factors)
    step = np.random.default_rng(2).normal(size=x.shape)
    for mu in (1.0, 1e-2, 1e-8):
        force = np.zeros_like(x)
        found = cord.smooth(x, mu, None, force)
        assert abs(found.energy - cord.energy(x)) <= 100 * mu * LENGTHS.sum() ** 2
        assert np.abs(force - find_force(cord, x)).max() <= 3 * np.sqrt(60e3 * mu * LENGTHS.sum())
        h = 1e-7
        ends = [cord.smooth(x + way * h * step, mu, None, np.zeros_like(x)).energy for way in (1, -1)]
        assert (ends[0] - ends[1]) / (2 * h) == pytest.approx(-np.vdot(force, step), rel=1e-5, abs=1e-6)


def test_one_smoothed_step_of_a_cord_follows_the_strain():
    """From rest a small step is met by stiffness and lead alone, to its square; a far one sets pieces anew."""
    cord, x, mu = REGISTRY["cable"][0], stretch((1.0, 1.0)), 1e-2
    here, force, lead = cord.smooth(x, mu, None, np.zeros_like(x)), np.zeros_like(x), np.zeros_like(x)
    step = 1e-7 * np.random.default_rng(5).normal(size=x.shape)
    then = cord.smooth(x + step, mu, here.memory, force)
    start = np.zeros_like(x)
    (blocks,) = cord.linearise(x, mu, cord.smooth(x, mu, here.memory, start).memory, StiffnessModel.POSITIVE, lead)
    moved = start + lead
    for nodes, block in zip(PAIRS, blocks, strict=True):
        moved[nodes] -= (block @ step[nodes].ravel()).reshape(2, 3)
    size = np.abs(force - start).max()
    np.testing.assert_allclose(force, moved, atol=1e-2 * size)
    assert then.strays == 0
    assert cord.smooth(x * 1.2, mu, here.memory, np.zeros_like(x)).strays > 0
