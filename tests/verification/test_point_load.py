"""A cable under its own weight and one heavy point load: the classic benchmark of cable elements.

Inputs from Michalos & Birnstiel (1962), O'Brien & Francis (1964), Jayaraman & Knudson (1981), Tibert (1999),
Andreu, Gil & Roca (2006), Thai & Kim (2011), all from memory: span 1000 ft level, sag 100 ft under self
weight, A = 0.85 in2, E = 19e6 psi, 3.16 lbf/ft, 8000 lbf at the node that stands at 400 ft.
"""

import numpy as np
import pytest
from scipy.optimize import brentq

from tautlay.solver import Cable, Structure, relax

from ._exact import balance_net, hang_cable, load_catenary
from ._nets import FOOT, POUND, Net

SPAN, SAG, WEIGHT = 1000 * FOOT, 100 * FOOT, 3.16 * POUND / FOOT
EA = 19e6 * POUND * 0.85  # psi times in2
LOAD = 8000 * POUND
FIRST, SECOND = 125.84698, 186.85523  # m unstretched, both sides of the loaded node
FALL, SHIFT = -5.625616, -0.859364  # m, exact


@pytest.fixture(scope="module")
def lengths():
    """Unstretched length of both pieces, from the sag and the place of the node in the dead-load state."""
    whole = brentq(
        lambda L: hang_cable(SPAN, 0, L, WEIGHT, EA).place(L / 2)[1] - SAG, 1.01 * SPAN, 1.06 * SPAN, xtol=1e-12
    )
    dead = hang_cable(SPAN, 0, whole, WEIGHT, EA)
    first = brentq(lambda s: dead.place(s)[0] - 400 * FOOT, 0, whole, xtol=1e-12)
    return first, whole - first


def build_chain(lengths, count, load):
    """Return the chain of ``count`` equal segments on each side of the loaded node, drawn along the dead catenary."""
    rest = np.repeat(np.array(lengths) / count, count)
    s = np.concatenate([[0], np.cumsum(rest)])
    x, d = hang_cable(SPAN, 0, sum(lengths), WEIGHT, EA).place(s)
    nodes = np.arange(2 * count + 1)
    forces = np.zeros((len(nodes), 3))
    segments = np.stack([nodes[:-1], nodes[1:]], axis=1)
    np.add.at(forces[:, 2], segments, -(WEIGHT * rest / 2)[:, None])
    forces[count, 2] -= load
    return Net(np.stack([x, 0 * x, -d], axis=1), segments, EA, rest, np.isin(nodes, (0, nodes[-1])), forces)


def solve(net):
    """Return the solved state of a chain."""
    structure = Structure(
        net.positions, [Cable(net.segments, net.ea, net.rest_length)], fixed=net.fixed, forces=net.forces
    )
    state = relax(structure, tolerance=1e-7)
    assert state.converged, state.message
    return state


def move_node(lengths, count):
    """Return the loaded node's move from the chain's own dead shape to full load (down, along), m, and the state."""
    dead, loaded = (solve(build_chain(lengths, count, load)) for load in (0.0, LOAD))
    return (loaded.positions - dead.positions)[count, [2, 0]], loaded


def test_exact_solution_gives_the_tabulated_figures(lengths):
    """Two elastic catenaries in series (derived) against the published -18.458 / -2.819 ft: 0.02 %.

    Lengths 125.84698 + 186.85523 m, H dead 17 795.47 N, loaded 89 441.26 N, V 28 695.87 N.
    """
    np.testing.assert_allclose(lengths, [FIRST, SECOND], rtol=1e-7)
    dead = hang_cable(SPAN, 0, sum(lengths), WEIGHT, EA)
    assert pytest.approx(17795.47, rel=1e-6) == dead.H
    H, V, (x, d) = load_catenary(*lengths, SPAN, WEIGHT, EA, LOAD)
    far = V - WEIGHT * sum(lengths) - LOAD
    np.testing.assert_allclose(
        [H, V, np.hypot(H, V), np.hypot(H, far)], [89441.26, 28695.87, 93931.85, 91945.01], rtol=2e-7
    )
    x0, d0 = dead.place(lengths[0])
    np.testing.assert_allclose([d0 - d, x - x0], [FALL, SHIFT], rtol=2e-6)
    np.testing.assert_allclose([d0 - d, x - x0], [-18.458 * FOOT, -2.819 * FOOT], rtol=2e-4)


@pytest.mark.parametrize("count", [10, 20, 40])
def test_displacement_from_the_stated_dead_shape(lengths, count):
    """Published -5.626 m down, -0.859 m towards the near support, from memory; exact values derived; 0.05 %.

    The case states where the node stands dead, at 400 ft on the curve of 100 ft sag; from there the move is
    counted.
    """
    net = build_chain(lengths, count, LOAD)
    moved = (solve(net).positions - net.positions)[count, [2, 0]]
    np.testing.assert_allclose(moved, [FALL, SHIFT], rtol=5e-4)


def test_displacement_from_the_solved_dead_shape_converges(lengths):
    """The same figures with the dead shape solved as well, so that its error comes in.

    Straight segments with their weight at the nodes sag 1/(2 n^2) too deep when dead, n segments in all,
    which is 0.7 % of the displacement for 10 + 10. The error falls with the square of the number: rate
    2 +- 0.05; 40 + 40 give 0.05 %, and so do 10 + 10 and 20 + 20 extrapolated.
    """
    counts = np.array([10, 20, 40])
    moves = np.array([move_node(lengths, n)[0] for n in counts])
    error = np.abs(moves / [FALL, SHIFT] - 1)
    rates = -np.polyfit(np.log(counts), np.log(error), 1)[0]
    np.testing.assert_allclose(rates, 2.0, atol=0.05)
    np.testing.assert_allclose(moves[2], [FALL, SHIFT], rtol=5e-4)
    np.testing.assert_allclose((4 * moves[1] - moves[0]) / 3, [FALL, SHIFT], rtol=5e-4)


def test_ten_and_ten_segments_are_solved_exactly(lengths):
    """The same chain by the tests' own Newton method: 1e-6 m, so what is left is the chain's own error."""
    for load in (0.0, LOAD):
        net = build_chain(lengths, 10, load)
        np.testing.assert_allclose(solve(net).positions, balance_net(net)[0], atol=1e-6)


def test_support_forces_of_the_fine_chain(lengths):
    """H 89 441.26, V1 28 695.87, T1 93 931.85, T2 91 945.01 N (derived): 40 + 40 straight segments 0.05 %."""
    _, state = move_node(lengths, 40)
    ends = state.reactions[[0, -1]]
    np.testing.assert_allclose(ends[0, [0, 2]], [-89441.26, 28695.87], rtol=5e-4)
    np.testing.assert_allclose(np.linalg.norm(ends, axis=1), [93931.85, 91945.01], rtol=5e-4)
