"""The explicit method: fictitious masses that keep it stable, the number of steps it needs, and where it ends.

Masses M = f (dt^2/2) sum of S, S = EA/L0 + T/L, with kinetic damping: M. R. Barnes, Int. J. Space Structures
14 (1999) 89-104, and M. Papadrakakis, Comput. Methods Appl. Mech. Eng. 25 (1981), from memory. Gershgorin's
theorem makes f >= 1 always stable. Step counts of the tables are those of an independent program (derived).
"""

import functools

import numpy as np
import pytest

from tautlay.solver import Cable, Reason, StiffnessModel, Structure, relax

from ._exact import balance_net
from ._nets import weave_hypar

# the net, and the steps an independent program took at f = 1; the load of the last is not given there
NETS = {
    "4x4 point": (weave_hypar(4, 1.0, 0.002, {(1, 2): 2000.0}), 129),
    "8x8 point": (weave_hypar(8, 1.0, 0.002, {(3, 5): 1000.0}), 376),
    "16x16 even": (weave_hypar(16, 1.0, 0.002, {"all": 25.0}), 446),
    "slackening": (weave_hypar(4, 0.4, 0.0005, {"all": 400.0}), None),
}


@functools.cache
def solve_exactly(name):
    """Return where the tests' own Newton method puts the nodes, m."""
    return balance_net(NETS[name][0])[0]


def build(net):
    return Structure(net.positions, [Cable(net.segments, net.ea, net.rest_length)], fixed=net.fixed, forces=net.forces)


@pytest.mark.parametrize("name", ["4x4 point", "8x8 point", "16x16 even"])
def test_steps_needed(name):
    """A sound choice of masses takes 100-600 steps on such nets, ten times as many betray a bad one (derived).

    Stopping at a peak of the kinetic energy one step late doubles them, masses twice as large add 40 %.
    """
    net, steps = NETS[name]
    state = relax(build(net), gear="explicit", mass_factor=1.0)
    assert state.converged, state.message
    assert 100 <= state.iterations <= 1.4 * steps
    assert state.factorisations == 0


@pytest.mark.parametrize("factor", [1.0, 2.0])
@pytest.mark.parametrize("name", NETS)
def test_factors_of_one_and_more_are_stable(name, factor):
    """Gershgorin: f >= 1 always suffices (Barnes 1999, from memory); all end where Newton's method does, 3e-7 m."""
    state = relax(build(NETS[name][0]), gear="explicit", mass_factor=factor, max_iterations=6000)
    assert state.converged, state.message
    np.testing.assert_allclose(state.positions, solve_exactly(name), atol=3e-7)


@pytest.mark.parametrize(("name", "factor"), [("8x8 point", 0.25), ("16x16 even", 0.25), ("16x16 even", 0.5)])
def test_too_little_mass_fails_and_is_reported(name, factor):
    """A quarter of the bound, and half of it on the finest net, fails (derived): named, and no equilibrium."""
    state = relax(build(NETS[name][0]), gear="explicit", mass_factor=factor, max_iterations=1500)
    assert state.reason in (Reason.STEP_LIMIT, Reason.MECHANISM, Reason.NOT_FINITE)
    assert not state.converged
    assert state.residual > 1e-3


@pytest.mark.parametrize("name", ["4x4 point", "8x8 point"])
def test_masses_keep_every_frequency_below_the_limit(name):
    """Central differences are stable for omega dt <= 2: the largest eigenvalue of K against M is at most 4.

    K the stiffness at the loaded shape, M = bound/4 for a time step of one; Gershgorin, textbook numerics.
    """
    net = NETS[name][0]
    structure, place = build(net), solve_exactly(name)
    count = len(place)
    K = np.zeros((count, 3, count, 3))
    cable = structure.terms[0]
    blocks = cable.blocks(place, StiffnessModel.EXACT).reshape(-1, 2, 3, 2, 3)
    for i in range(2):
        for j in range(2):
            ends = cable.connectivity[:, i], cable.connectivity[:, j]
            np.add.at(K.transpose(0, 2, 1, 3), ends, blocks[:, i, :, j, :])
    free = ~net.fixed
    root = np.sqrt(np.repeat(structure.stiffness_bound(place)[free] / 4, 3))
    matrix = K[free][:, :, free].reshape(len(root), -1) / root[:, None] / root
    highest = np.linalg.eigvalsh(matrix).max()
    assert highest <= 4.0
    assert highest >= 1.0  # far below, the masses would be wastefully large


@pytest.mark.parametrize("name", ["4x4 point", "8x8 point", "slackening"])
def test_methods_agree(name):
    """Explicit and implicit method share no step and reach the same shape, 3e-7 m, and forces, 1e-5 of the largest."""
    structure = build(NETS[name][0])
    cable = structure.elements[0]
    states = [relax(structure, gear=gear) for gear in ("explicit", "implicit", "auto")]
    for state in states:
        assert state.converged, state.message
        np.testing.assert_allclose(state.positions, states[0].positions, atol=3e-7)
        most = states[0][cable].tension.max()
        np.testing.assert_allclose(state[cable].tension, states[0][cable].tension, atol=1e-5 * most)
    assert states[1].iterations < states[0].iterations / 10


@pytest.mark.parametrize("gear", ["explicit", "implicit"])
@pytest.mark.parametrize("seed", [1, 2])
def test_rough_start_ends_at_the_same_shape(gear, seed):
    """A prestressed net has one equilibrium (its energy grows in all directions): 0.3 m of disorder do not matter."""
    net = NETS["4x4 point"][0]
    disorder = np.random.default_rng(seed).normal(scale=0.3, size=net.positions.shape)
    state = relax(build(net), gear=gear, start=net.positions + disorder, tolerance=1e-7)
    assert state.converged, state.message
    np.testing.assert_allclose(state.positions, solve_exactly("4x4 point"), atol=3e-7)
