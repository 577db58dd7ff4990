"""The factoriser: with and without cvxopt the same answers, for matrices whose zeros come and go."""

import numpy as np
import pytest

from tautlay.solver import Cable, Rod, SlidingCable, StiffnessModel, Structure
from tautlay.solver import factoriser as module
from tautlay.solver.assembly import Assembly
from tautlay.solver.factoriser import Factoriser, SparsityPattern

SIZE = 60


@pytest.fixture(autouse=True, params=["CHOLMOD", "SuperLU"])
def library(request, monkeypatch):
    """Take either library: cvxopt, which the tests need, or scipy as if it were not installed."""
    if request.param == "SuperLU":
        monkeypatch.setattr(module, "find_spec", lambda name: None)


@pytest.fixture
def band():
    """Return pattern, rows and columns of a matrix with four bands below its diagonal."""
    rows, cols = np.nonzero(np.abs(np.subtract.outer(np.arange(SIZE), np.arange(SIZE))) < 5)
    order = np.lexsort((rows, cols))
    rows, cols = rows[order], cols[order]
    return SparsityPattern(SIZE, rows[rows >= cols], cols[rows >= cols])


def fill(pattern, seed, diagonal, share=1.0):
    """Return values with zeros, and the whole matrix that they stand for."""
    rng = np.random.default_rng(seed)
    values = rng.normal(size=len(pattern.rows)) * (rng.random(len(pattern.rows)) < share)
    values[pattern.rows == pattern.cols] = diagonal
    whole = np.zeros((SIZE, SIZE))
    whole[pattern.rows, pattern.cols] = values
    return values, whole + np.tril(whole, -1).T


def test_answers_are_those_of_a_dense_solve_while_zeros_come_and_go(band):
    factoriser, right = Factoriser(band), np.random.default_rng(1).normal(size=(SIZE, 3))
    for seed, share in enumerate((0.3, 0.3, 1.0, 0.9, 0.1, 0.0)):
        values, whole = fill(band, seed, 20.0, share)
        np.testing.assert_allclose(factoriser.factorise(values)(right), np.linalg.solve(whole, right), rtol=1e-9)


def test_matrix_with_negative_eigenvalues_is_solved_too(band):
    diagonal = np.where(np.arange(SIZE) % 7 == 0, -20.0, 20.0)
    values, whole = fill(band, 3, diagonal)
    assert (np.linalg.eigvalsh(whole) < 0).sum() > 1
    right = np.ones((SIZE, 1))
    np.testing.assert_allclose(Factoriser(band).factorise(values)(right), np.linalg.solve(whole, right), rtol=1e-9)


def test_singular_matrix_has_no_answer(band):
    values, _ = fill(band, 4, 20.0)
    values[(band.rows == 7) | (band.cols == 7)] = 0.0
    factoriser = Factoriser(band)
    assert factoriser.factorise(values) is None
    values[(band.rows == 7) & (band.cols == 7)] = 1.0
    assert factoriser.factorise(values) is not None


@pytest.mark.parametrize("soft", [1e-3, 1e-9])
def test_columns_count_as_if_they_stood_in_the_matrix(soft):
    """Two sliding cords on nodes that are all but loose without them: digits lost there are found again."""
    places = np.random.default_rng(5).normal(size=(8, 3))
    cords = [SlidingCable([0, 1, 2, 3, 7], 1e5, 2.0), SlidingCable([0, 4, 2, 5, 7], 1e4, 2.0)]
    held = np.isin(np.arange(8), [0, 7])
    structure = Structure(places, [*cords, Rod([[1, 6]], 1e3, 1.0), Cable([[5, 6]], 1e3, 0.1)], fixed=held)
    assembly, force = Assembly(structure), np.random.default_rng(6).normal(size=(8, 3))
    stiffness = assembly.matrix(places, StiffnessModel.POSITIVE, np.full(8, soft))
    lower = assembly.find_lower(stiffness).toarray()
    whole = lower + np.tril(lower, -1).T + stiffness.gradients * stiffness.columns @ stiffness.gradients.T
    moved = assembly.solve(stiffness, force)
    assert not moved[held].any()
    left = whole @ moved[structure.free] - force[structure.free]
    assert np.abs(left).max() <= 1e-8 * np.abs(force).max()
