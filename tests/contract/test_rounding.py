"""A solve that ends on what rounding leaves says so, and no other does."""

import numpy as np
import pytest

from tautlay.solver import Cable, Reason, State, Structure, relax


def solve(tolerance, ea=1e7):
    cord = Cable([[0, 1], [1, 2]], ea=ea, rest_length=1.05)
    load = [[0, 0, 0], [0, 0, -800], [0, 0, 0]]
    bridge = Structure([[0, 0, 0], [1, 0, -0.3], [2, 0, 0]], [cord], fixed=[True, False, True], forces=load)
    return relax(bridge, tolerance=tolerance)


def test_a_tolerance_below_rounding_is_told_as_that():
    state = solve(1e-18)
    assert state.reason in (Reason.STALLED, Reason.STEP_LIMIT)
    assert state.residual <= state.rounding < 1e-9
    assert "what rounding leaves" in state.message
    assert "looser tolerance" in state.message


def test_rounding_grows_with_the_stiffness():
    assert solve(1e-18, 1e9).rounding == pytest.approx(100 * solve(1e-18).rounding, rel=0.01)


@pytest.mark.parametrize("reason", [Reason.STALLED, Reason.STEP_LIMIT])
def test_a_larger_residual_is_no_rounding(reason):
    stuck = State(np.zeros((2, 3)), np.zeros((2, 3)), 0.0, 1e-3, reason, 1, 1, {}, 1e-9)
    assert "rounding" not in stuck.message


def test_an_equilibrium_is_one():
    state = solve(1e-6)
    assert (state.message, state.rounding) == ("Equilibrium found.", 0.0)
