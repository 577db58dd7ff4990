"""The taut sheet with edge cables against scikit-fem, a general-purpose finite-element library; see ``_sheet``."""

import numpy as np
import pytest

from ._sheet import CELLS, LENGTH, LOAD, WIDTH, make_sheet, solve_library, solve_tautlay


@pytest.fixture(scope="module")
def case():
    return make_sheet()


@pytest.fixture(scope="module")
def ours(case):
    return solve_tautlay(case)


@pytest.fixture(scope="module")
def theirs(case):
    return solve_library(case)


def test_deflection(ours, theirs):
    """Within 0.1 % of the largest deflection at every node; about 0.108 m at the centre."""
    centre = np.argmin(np.linalg.norm(theirs.positions[:, :2] - [LENGTH / 2, WIDTH / 2], axis=1))
    assert -theirs.positions[centre, 2] == pytest.approx(0.108, abs=0.001)
    assert ours.positions == pytest.approx(theirs.positions, abs=1e-3 * 0.108)


def test_cable_force(case, ours, theirs):
    """Within 0.1 %; about 4001 N at mid-span."""
    middle = CELLS[0] // 2
    assert theirs.cable[middle] == pytest.approx(4001, abs=15)
    assert ours.cable == pytest.approx(theirs.cable, rel=1e-3)


def test_membrane_stress(ours, theirs):
    """PK2 and true principal line stress of every triangle within 0.1 % of the largest."""
    assert ours.pk2 == pytest.approx(theirs.pk2, abs=1e-3 * theirs.pk2.max())
    assert ours.tension == pytest.approx(theirs.tension, abs=1e-3 * theirs.tension.max())


def test_reactions(ours, theirs):
    """Every reaction within 0.1 % of the largest; together they carry the load."""
    assert ours.reactions == pytest.approx(theirs.reactions, abs=1e-3 * np.abs(theirs.reactions).max())
    assert ours.reactions.sum(axis=0) == pytest.approx([0, 0, LOAD], abs=1e-4 * LOAD)
