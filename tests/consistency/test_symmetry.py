"""Half and quarter models give what the full model gives: a sagging sheet between two edge cords.

Symmetry of structure and load carries over to the equilibrium; common practice, no source.
"""

from typing import NamedTuple

import numpy as np
import pytest

from tautlay.solver import Cable, FabricLaw, Membrane, SlidingCable, State, Structure, relax

LENGTH, WIDTH, SPAN = 2.0, 1.2, 1.88  # m; the ends stand closer than the cloth is long
CELLS_X, CELLS_Y = 16, 10
LAW = FabricLaw(25e3, 15e3, 0.15, 200.0)
AREAL_MASS, CORD_MASS = 0.5, 0.01  # kg/m2, kg/m
CORD_EA, CORD_REST = 40e3, 0.945  # N, over the length of the edge
PRESSURE = 900.0  # N/m2, peak of the dead load on the flat cloth


class Model(NamedTuple):
    """A solved model, its nodes by where they lie on the flat cloth."""

    flat: np.ndarray
    ids: np.ndarray
    state: State
    cloth: Membrane
    cords: list


def cut(xs, ys):
    """Return flat nodes, their numbers on the grid, and triangles mirrored about both middle lines."""
    flat = np.stack(np.meshgrid(xs, ys, indexing="ij"), axis=-1).reshape(-1, 2)
    ids = np.arange(len(flat)).reshape(len(xs), len(ys))
    a, b, c, d = (corner.ravel() for corner in (ids[:-1, :-1], ids[1:, :-1], ids[1:, 1:], ids[:-1, 1:]))
    middle = flat[[a, b, c, d]].mean(axis=0)
    turned = (middle[:, 0] * middle[:, 1] > 0)[:, None]
    first = np.where(turned, np.stack([a, b, d], 1), np.stack([a, b, c], 1))
    second = np.where(turned, np.stack([b, c, d], 1), np.stack([a, c, d], 1))
    return flat, ids, np.concatenate([first, second])


def lace(edge, *, sliding):
    """Return the cord along an edge, sewn down or running freely in its channel."""
    rest = CORD_REST * LENGTH / CELLS_X
    if sliding:
        return SlidingCable(edge, CORD_EA, rest * (len(edge) - 1), mass=CORD_MASS)
    return Cable(np.column_stack([edge[:-1], edge[1:]]), CORD_EA, rest, mass=CORD_MASS)


def solve(part, *, sliding=False):
    """Relax the "full", "half" (y >= 0) or "quarter" (x, y >= 0) model."""
    xs = np.linspace(-LENGTH / 2, LENGTH / 2, CELLS_X + 1)
    ys = np.linspace(-WIDTH / 2, WIDTH / 2, CELLS_Y + 1)
    flat, ids, triangles = cut(
        xs[CELLS_X // 2 :] if part == "quarter" else xs, ys if part == "full" else ys[CELLS_Y // 2 :]
    )
    x, y = flat.T
    end = np.abs(x) > LENGTH / 2 - 1e-9
    fixed = np.repeat(end[:, None], 3, axis=1)
    if part != "full":
        fixed[y < 1e-9, 1] = True
    if part == "quarter":
        fixed[x < 1e-9, 0] = True
    positions = np.column_stack([x * SPAN / LENGTH, y, np.where(end, 0, -0.3 * np.cos(np.pi * x / LENGTH))])
    cloth = Membrane(triangles, flat[triangles], LAW, mass=AREAL_MASS)
    cords = [lace(ids[:, -1], sliding=sliding)] + ([lace(ids[:, 0], sliding=sliding)] if part == "full" else [])
    share = np.zeros(len(flat))
    np.add.at(share, triangles, (cloth.area / 3)[:, None])
    weight = PRESSURE * share * np.exp(-((x / 0.6) ** 2) - (y / 0.4) ** 2)
    structure = Structure(positions, [cloth, *cords], fixed=fixed, forces=np.outer(weight, [0, 0, -1]))
    state = relax(structure, tolerance=1e-8)
    assert state.converged, state.message
    return Model(flat, ids, state, cloth, cords)


@pytest.fixture(scope="module", params=[False, True], ids=["sewn", "sliding"])
def models(request):
    return {part: solve(part, sliding=request.param) for part in ("full", "half", "quarter")}


def share_of_full(models, part):
    """Nodes of the full model that the part has too, in the part's order, and how often each counts there."""
    full, small = models["full"], models[part]
    ids = full.ids[CELLS_X // 2 :] if part == "quarter" else full.ids
    ids = ids[:, CELLS_Y // 2 :].ravel()
    assert full.flat[ids] == pytest.approx(small.flat, abs=1e-12)
    split = np.where(small.flat[:, 1] < 1e-9, 0.5, 1.0)
    if part == "quarter":
        split = split * np.where(small.flat[:, 0] < 1e-9, 0.5, 1.0)
    return ids, split


def test_full_model_is_symmetric(models):
    """A model built without its symmetry finds it."""
    full = models["full"]
    at = full.state.positions.reshape(CELLS_X + 1, CELLS_Y + 1, 3)
    assert at[:, ::-1] * [1, -1, 1] == pytest.approx(at, abs=1e-5)
    assert at[::-1] * [-1, 1, 1] == pytest.approx(at, abs=1e-5)


def test_sheet_is_partly_wrinkled(models):
    """So that symmetry is not only tried on cloth that is taut all over."""
    kind = models["full"].state[models["full"].cloth].kind
    assert (kind == 2).any()
    assert (kind < 2).mean() > 0.1


@pytest.mark.parametrize("part", ["half", "quarter"])
def test_shape(models, part):
    ids, _ = share_of_full(models, part)
    assert models[part].state.positions == pytest.approx(models["full"].state.positions[ids], abs=2e-5)


@pytest.mark.parametrize("part", ["half", "quarter"])
def test_cord_tension(models, part):
    full, small = models["full"], models[part]
    whole = np.atleast_1d(full.state[full.cords[0]].tension)
    found = np.atleast_1d(small.state[small.cords[0]].tension)
    assert whole.min() > 100.0
    assert found == pytest.approx(whole[-len(found) :], rel=1e-4)
    assert np.atleast_1d(full.state[full.cords[1]].tension) == pytest.approx(whole, rel=1e-4)


@pytest.mark.parametrize("part", ["half", "quarter"])
def test_end_reactions(models, part):
    """Along and upright, node by node; those on a plane of symmetry carry half. Across, the plane takes the rest."""
    ids, split = share_of_full(models, part)
    end = models[part].flat[:, 0] > LENGTH / 2 - 1e-9
    whole = models["full"].state.reactions[ids] * split[:, None]
    found = models[part].state.reactions
    largest = np.abs(whole).max()
    assert found[end][:, [0, 2]] == pytest.approx(whole[end][:, [0, 2]], abs=2e-4 * largest)


@pytest.mark.parametrize(("part", "times"), [("half", 2), ("quarter", 4)])
def test_energy(models, part, times):
    """The stored energy and the work of the load, counted as many times as the part is contained."""
    assert times * models[part].state.energy == pytest.approx(models["full"].state.energy, rel=1e-7)
