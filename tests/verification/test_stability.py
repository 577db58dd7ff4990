"""Negative-curvature directions of the energy: a chain of bars that buckles, and the second differences of the energy."""

import numpy as np
import pytest

from tautlay.solver import Cable, Joint, Rod, SlidingCable, Structure, count_negative_pivots, relax

BARS, LENGTH, SPRING = 6, 0.5, 40.0  # m, N m/rad
EA = 1e8  # N: bars that hardly shorten


def push_chain(load):
    """Return a straight chain of bars with springs at its joints, pushed at one end by ``load``."""
    nodes = np.arange(BARS + 1)
    positions = np.zeros((BARS + 1, 3))
    positions[:, 0] = nodes * LENGTH
    pairs = np.stack([nodes[:-1], nodes[1:]], axis=1)
    triples = np.stack([nodes[:-2], nodes[1:-1], nodes[2:]], axis=1)
    fixed = np.zeros((BARS + 1, 3), dtype=bool)
    fixed[0], fixed[-1, 1:] = True, True
    forces = np.zeros((BARS + 1, 3))
    forces[-1, 0] = -load
    elements = [Rod(pairs, EA, LENGTH / (1 - load / EA)), Joint(triples, SPRING)]
    return Structure(positions, elements, fixed=fixed, forces=forces, gravity=(0, 0, 0))


@pytest.mark.parametrize("passed", range(BARS))
def test_buckled_modes_of_a_chain_are_counted(passed):
    """Between its k-th and next buckling load a chain has k shapes of negative curvature, each sideways and up.

    Loads 4 c/l sin^2(k pi/(2 n)), H. Hencky, Der Eisenbau 11 (1920) 437-452, from memory.
    """
    loads = 4 * SPRING / LENGTH * np.sin(np.arange(1, BARS) * np.pi / (2 * BARS)) ** 2
    bounds = [0.0, *loads, 1.5 * loads[-1]]
    chain = push_chain((bounds[passed] + bounds[passed + 1]) / 2)
    assert np.abs(chain.unbalanced(chain.positions)[chain.free]).max() < 1e-3
    assert count_negative_pivots(chain, chain.positions) == 2 * passed


def count_by_differences(structure, positions):
    """Return the negative eigenvalues of the second differences of the energy."""
    step, free = 1e-6, np.flatnonzero(structure.free.ravel())
    rows = []
    for place in free:
        moved = []
        for sign in (1, -1):
            flat = positions.ravel().copy()
            flat[place] += sign * step
            moved.append(structure.unbalanced(flat.reshape(positions.shape)).ravel()[free])
        rows.append((moved[1] - moved[0]) / (2 * step))
    values = np.linalg.eigvalsh((np.array(rows) + np.array(rows).T) / 2)
    return int((values < -1e-6 * np.abs(values).max()).sum())


@pytest.mark.parametrize("height", [0.3, 0.8])
@pytest.mark.parametrize("stayed", [False, True])
def test_mast_with_a_sliding_stay_agrees_with_second_differences(height, stayed):
    """A mast under load, held by a stay that slides over its top and, or not, by two more across."""
    elements = [Rod([[0, 1]], 1e6, height), SlidingCable([2, 1, 3], 1e5, 2 * np.hypot(height, 1.0) * 0.999)]
    elements += [Cable([[4, 1], [5, 1]], 1e5, np.hypot(height, 1.0) * 0.999)] if stayed else []
    positions = [[0, 0, 0], [0, 0, height], [-1, 0, 0], [1, 0, 0], [0, -1, 0], [0, 1, 0]]
    fixed = [True, False, True, True, True, True]
    mast = Structure(positions, elements, fixed=fixed, forces=[[0, 0, -100.0 * (place == 1)] for place in range(6)])
    state = relax(mast, tolerance=1e-10)
    assert state.converged
    found = count_negative_pivots(mast, state.positions)
    assert found == count_by_differences(mast, state.positions)


def test_a_weight_on_a_line_is_at_a_minimum_and_slack_cloth_does_not_count():
    """A hanging weight has no negative curvature; a slack line beside it has no stiffness at all and does not count."""
    lines = [Cable([[0, 1]], 1e4, 1.0), Cable([[0, 2]], 1e4, 2.0)]
    hang = Structure([[0, 0, 0], [0.3, 0, -0.9], [0.5, 0, -0.5]], lines, fixed=[True, False, False],
                     forces=[[0, 0, 0], [0, 0, -50], [0, 0, 0]])  # fmt: skip
    state = relax(hang)
    assert count_negative_pivots(hang, state.positions) == 0
