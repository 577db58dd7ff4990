"""A taut sheet with edge cables, built a second time in scikit-fem, a general-purpose finite-element library.

T. Gustafsson and G. D. McBain, scikit-fem: A Python package for finite element assembly, J. Open Source
Softw. 5 (2020) 2369. The membrane is assembled there from its weak form on the flat sheet, the cables from
two-node bars, and solved by Newton's method: nothing but the mesh is shared.
"""

from typing import NamedTuple

import numpy as np
import scipy.sparse as sparse
import skfem
from scipy.sparse.linalg import spsolve
from skfem.helpers import ddot

from tautlay.solver import Cable, FabricLaw, Membrane, Structure, relax

LENGTH, WIDTH = 2.0, 1.2  # m
STIFFNESS, POISSON, PRESTRESS = 30e3, 0.3, 1000.0  # N/m
CABLE_EA, CABLE_PULL, LOAD = 60e3, 4000.0, 800.0  # N
CELLS = (20, 12)


class Case(NamedTuple):
    """The model both sides start from."""

    points: np.ndarray  # (n, 2)
    triangles: np.ndarray
    cords: np.ndarray  # (k, 2)
    pinned: np.ndarray  # (n,)
    load: np.ndarray  # (n,) N downward


class Answer(NamedTuple):
    """What both sides find."""

    positions: np.ndarray  # (n, 3)
    cable: np.ndarray  # (k,) N
    pk2: np.ndarray  # (m, 3) N/m
    tension: np.ndarray  # (m, 2) true principal line stress
    reactions: np.ndarray  # (n, 3) N
    steps: int


def make_sheet(along=CELLS[0], across=CELLS[1]):
    """Return the sheet divided into ``along`` times ``across`` cells, diagonals mirrored about both middles."""
    points = np.stack(
        np.meshgrid(np.linspace(0, LENGTH, along + 1), np.linspace(0, WIDTH, across + 1), indexing="ij"), -1
    )
    points = points.reshape(-1, 2)
    ids = np.arange(len(points)).reshape(along + 1, across + 1)
    a, b, c, d = (corner.ravel() for corner in (ids[:-1, :-1], ids[1:, :-1], ids[1:, 1:], ids[:-1, 1:]))
    middle = points[[a, b, c, d]].mean(axis=0) - [LENGTH / 2, WIDTH / 2]
    turned = (middle[:, 0] * middle[:, 1] < 0)[:, None]
    first = np.where(turned, np.stack([a, b, d], 1), np.stack([a, b, c], 1))
    second = np.where(turned, np.stack([b, c, d], 1), np.stack([a, c, d], 1))
    triangles = np.concatenate([first, second])
    cords = np.concatenate([np.column_stack([ids[:-1, edge], ids[1:, edge]]) for edge in (0, -1)])
    pinned = (points[:, 0] < 1e-9) | (points[:, 0] > LENGTH - 1e-9)
    sides = points[triangles[:, 1:]] - points[triangles[:, :1]]
    area = np.abs(sides[:, 0, 0] * sides[:, 1, 1] - sides[:, 0, 1] * sides[:, 1, 0]) / 2
    load = np.bincount(triangles.ravel(), np.repeat(area / 3, 3), len(points)) * LOAD / (LENGTH * WIDTH)
    return Case(points, triangles, cords, pinned, load)


def solve_tautlay(case):
    """Return what this project finds."""
    law = FabricLaw(STIFFNESS, STIFFNESS, POISSON, STIFFNESS / 2.6, prestress=(PRESTRESS, PRESTRESS, 0.0))
    cloth = Membrane(case.triangles, case.points[case.triangles], law)
    length = np.linalg.norm(case.points[case.cords[:, 1]] - case.points[case.cords[:, 0]], axis=1)
    cable = Cable(case.cords, CABLE_EA, length / (1 + CABLE_PULL / CABLE_EA))
    structure = Structure(
        np.pad(case.points, ((0, 0), (0, 1))),
        [cloth, cable],
        fixed=case.pinned,
        forces=np.outer(case.load, [0, 0, -1]),
    )
    state = relax(structure, tolerance=1e-9)
    assert state.converged, state.message
    found = state[cloth]
    assert (found.kind == 2).all()  # the library's law knows no wrinkles
    return Answer(state.positions, state[cable].tension, found.pk2, found.tension, state.reactions, state.iterations)


def constitute(gradient):
    """Return deformation gradient (3, 2, ...) and PK2 line stress (2, 2, ...) for a displacement gradient."""
    F = gradient + np.eye(3, 2).reshape(3, 2, *[1] * (gradient.ndim - 2))
    E = (np.einsum("ka...,kb...->ab...", F, F) - np.eye(2).reshape(2, 2, *[1] * (gradient.ndim - 2))) / 2
    return F, stress_of(E) + PRESTRESS * np.eye(2).reshape(2, 2, *[1] * (gradient.ndim - 2))


def stress_of(E):
    """Isotropic plane stress per unit width: Lame form of E/(1-nu^2)."""
    trace = E[0, 0] + E[1, 1]
    unit = np.eye(2).reshape(2, 2, *[1] * (E.ndim - 2))
    return STIFFNESS / (1 + POISSON) * (E + POISSON / (1 - POISSON) * trace * unit)


@skfem.BilinearForm
def membrane_tangent(u, v, w):
    F, S = constitute(w["now"].grad)
    change = np.einsum("ka...,kb...->ab...", F, u.grad)
    dS = stress_of((change + change.swapaxes(0, 1)) / 2)
    dP = np.einsum("ka...,ab...->kb...", u.grad, S) + np.einsum("ka...,ab...->kb...", F, dS)
    return ddot(dP, v.grad)


@skfem.LinearForm
def membrane_force(v, w):
    F, S = constitute(w["now"].grad)
    return ddot(np.einsum("ka...,ab...->kb...", F, S), v.grad)


def pull_cables(case, positions):
    """Return tension (k,), nodal force (n, 3) and stiffness blocks (k, 3, 3) of two-node bars."""
    rest = np.linalg.norm(case.points[case.cords[:, 1]] - case.points[case.cords[:, 0]], axis=1)
    rest = rest / (1 + CABLE_PULL / CABLE_EA)
    span = positions[case.cords[:, 1]] - positions[case.cords[:, 0]]
    length = np.linalg.norm(span, axis=1)
    tension = CABLE_EA * (length / rest - 1)
    unit = span / length[:, None]
    along = unit[:, :, None] * unit[:, None, :]
    blocks = (CABLE_EA / rest)[:, None, None] * along + (tension / length)[:, None, None] * (np.eye(3) - along)
    force = np.zeros_like(positions)
    np.add.at(force, case.cords[:, 0], -tension[:, None] * unit)
    np.add.at(force, case.cords[:, 1], tension[:, None] * unit)
    return tension, force, blocks


def assemble_cables(case, blocks, dofs, size):
    """Return the sparse stiffness of the bars; ``dofs`` (3, n) numbers the library's unknowns."""
    entry = dofs[:, case.cords]  # (3, k, 2)
    pieces = []
    for a in range(2):
        for b in range(2):
            sign = 1.0 if a == b else -1.0
            rows = np.broadcast_to(entry[:, :, a].T[:, :, None], blocks.shape).ravel()
            cols = np.broadcast_to(entry[:, :, b].T[:, None, :], blocks.shape).ravel()
            pieces.append(sparse.coo_matrix((sign * blocks.ravel(), (rows, cols)), shape=(size, size)))
    return sum(pieces).tocsr()


def solve_library(case):
    """Return what the library finds."""
    grid = skfem.MeshTri(case.points.T.copy(), case.triangles.T.copy())
    basis = skfem.Basis(grid, skfem.ElementVector(skfem.ElementTriP1(), 3), intorder=1)
    dofs = basis.nodal_dofs  # (3, n)
    free = np.setdiff1d(np.arange(basis.N), dofs[:, case.pinned].ravel())
    flat = np.pad(case.points, ((0, 0), (0, 1)))
    load = np.zeros(basis.N)
    load[dofs[2]] = -case.load
    u = np.zeros(basis.N)
    u[dofs[2]] = -0.05 * (~case.pinned)  # off the plane, where the sheet is soft
    for steps in range(40):  # noqa: B007  (the count is reported)
        now = basis.interpolate(u)
        tension, pull, blocks = pull_cables(case, flat + u[dofs].T)
        inner = membrane_force.assemble(basis, now=now)
        np.add.at(inner, dofs.T, pull)
        residual = load - inner
        if np.linalg.norm(residual[free]) < 1e-9 * LOAD:
            break
        tangent = membrane_tangent.assemble(basis, now=now) + assemble_cables(case, blocks, dofs, basis.N)
        u[free] += spsolve(tangent.tocsc()[np.ix_(free, free)], residual[free])
    else:
        raise AssertionError("Newton's method did not converge in the library's model")
    F, S = (field[..., 0] for field in constitute(now.grad))
    J = np.sqrt(np.linalg.det(np.einsum("kam,kbm->mab", F, F)))
    # F S F^T / J has the eigenvalues of S F^T F / J, and a zero across the surface
    true = np.linalg.eigvals(np.einsum("abm,kbm,kcm->mac", S, F, F) / J[:, None, None])
    principal = np.sort(true.real, axis=1)[:, ::-1]
    reactions = np.where(case.pinned[:, None], -residual[dofs].T, 0)
    return Answer(flat + u[dofs].T, tension, np.column_stack([S[0, 0], S[1, 1], S[0, 1]]), principal, reactions, steps)
