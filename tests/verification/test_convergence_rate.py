"""How fast the membrane closes in on the exact solution: second order in the mesh size, slope 2 +- 0.15.

Linear triangles: G. Strang and G. J. Fix, An Analysis of the Finite Element Method, 1973 (displacement of
order h^2 in the mean square, strain of order h; from memory).
"""

import numpy as np
import pytest

from tautlay.solver import FabricLaw, Membrane, Pressure, Structure, relax

SIZES = (8, 16, 32)


def slope(sizes, errors):
    return -np.polyfit(np.log(sizes), np.log(errors), 1)[0]


def mean_square(mesh, values):
    return np.sqrt(mesh.tributary() @ values**2)


def skew(make_mesh, mesh, amount):
    """Warp a mesh of the unit square smoothly, its rim staying in place, so that no triangle is regular."""
    x, y = mesh.points.T
    bump = amount * np.sin(np.pi * x) * np.sin(np.pi * y)
    return make_mesh(mesh.points + np.column_stack([bump, -0.6 * bump]), mesh.triangles)


def load_nodes(mesh, density):
    """Dead load of each node from a density over the flat area, by the mid-edge rule (exact for squares)."""
    corners, share = mesh.flat, mesh.areas() / 3
    load = np.zeros(len(mesh.points))
    for a, b in ((0, 1), (1, 2), (2, 0)):
        value = share * density((corners[:, a] + corners[:, b]) / 2) / 2
        np.add.at(load, mesh.triangles[:, a], value)
        np.add.at(load, mesh.triangles[:, b], value)
    return load


@pytest.mark.parametrize("amount", [0.0, 0.12], ids=["regular", "warped"])
def test_taut_sheet_under_a_light_load(make_mesh, make_rectangle, amount):
    """Prestressed square sheet, -T lap w = q with w = W sin(pi x) sin(2 pi y) (S. Timoshenko and S.
    Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. 1959, membrane analogy; from memory). Deflections
    of 1e-5 of the side leave the tension as it is.
    """
    tension, height = 1000.0, 1e-5
    law = FabricLaw(5e3, 5e3, 0.2, 5e3 / 2.4, prestress=(tension, tension, 0.0))
    errors = []
    for n in SIZES:
        line = np.linspace(0, 1, n + 1)
        mesh = skew(make_mesh, make_rectangle(line, line, "mirror"), amount)

        def shape(p):
            return height * np.sin(np.pi * p[:, 0]) * np.sin(2 * np.pi * p[:, 1])

        load = load_nodes(mesh, lambda p: 5 * np.pi**2 * tension * shape(p))
        cloth = Membrane(mesh.triangles, mesh.flat, law)
        structure = Structure(mesh.raised, [cloth], fixed=mesh.boundary(), forces=np.outer(load, [0, 0, 1]))
        state = relax(structure, tolerance=1e-8)
        assert state.converged, state.message
        errors.append(mean_square(mesh, state.positions[:, 2] - shape(mesh.points)))
    assert errors[-1] < 0.01 * height
    assert slope(SIZES, errors) == pytest.approx(2, abs=0.15)


def stretch_map(points):
    """A smooth, strongly curved place for every point of the flat unit square: (n, 3) and its gradient (n, 3, 2)."""
    x, y = points.T
    s, c = np.sin, np.cos
    u = [
        1.04 * x + 0.02 * s(np.pi * x) * s(np.pi * y),
        1.03 * y + 0.015 * s(2 * np.pi * x) * s(np.pi * y),
        0.10 * s(np.pi * x) * s(np.pi * y),
    ]
    p = np.pi
    F = [
        [1.04 + 0.02 * p * c(p * x) * s(p * y), 0.02 * p * s(p * x) * c(p * y)],
        [0.03 * p * c(2 * p * x) * s(p * y), 1.03 + 0.015 * p * s(2 * p * x) * c(p * y)],
        [0.10 * p * c(p * x) * s(p * y), 0.10 * p * s(p * x) * c(p * y)],
    ]
    return np.stack(u, 1), np.moveaxis(np.array(F), -1, 0)


def test_large_deformation_with_a_manufactured_load(make_mesh, make_rectangle):
    """Orthotropic sheet stretched by up to 10 % and bulged by a tenth of its side: a shape is chosen, the dead
    load that keeps it there, minus the divergence of F S, follows (P. J. Roache, J. Fluids Eng. 124 (2002)
    4-10, method of manufactured solutions; from memory). Displacement of second order, stress of first.
    """
    law = FabricLaw(20e3, 12e3, 0.25, 3e3, prestress=(600.0, 500.0, 0.0))
    D = law.stiffness()

    def first_piola(points):
        F = stretch_map(points)[1]
        C = np.swapaxes(F, 1, 2) @ F
        e = np.stack([(C[:, 0, 0] - 1) / 2, (C[:, 1, 1] - 1) / 2, C[:, 0, 1]], axis=1)
        s = e @ D + law.prestress
        return F @ s[:, [0, 2, 2, 1]].reshape(-1, 2, 2), s

    def density(points):
        """Minus the divergence, by sixth-order differences."""
        step, total = 1e-2, 0
        for axis in range(2):
            shift = step * np.eye(2)[axis]
            for k, weight in ((1, 45), (2, -9), (3, 1)):
                ahead, behind = first_piola(points + k * shift)[0], first_piola(points - k * shift)[0]
                total = total + weight * (ahead - behind)[:, :, axis] / (60 * step)
        return -total

    errors, stress_errors = [], []
    for n in SIZES:
        line = np.linspace(0, 1, n + 1)
        mesh = skew(make_mesh, make_rectangle(line, line, "mirror"), 0.08)
        exact = stretch_map(mesh.points)[0]
        force = np.stack([load_nodes(mesh, lambda p, k=k: density(p)[:, k]) for k in range(3)], axis=1)
        cloth = Membrane(mesh.triangles, mesh.flat, law)
        rim = mesh.boundary()
        start = np.where(rim[:, None], exact, mesh.raised + [0, 0, 0.02])
        state = relax(Structure(start, [cloth], fixed=rim, forces=force), tolerance=1e-9)
        assert state.converged, state.message
        assert (state[cloth].kind == 2).all()
        errors.append(mean_square(mesh, np.linalg.norm(state.positions - exact, axis=1)))
        stress = first_piola(mesh.flat.mean(axis=1))[1]
        off = np.linalg.norm(state[cloth].pk2 - stress, axis=1)
        stress_errors.append(np.sqrt(mesh.areas() @ off**2))
    assert slope(SIZES, errors) == pytest.approx(2, abs=0.15)
    assert slope(SIZES, stress_errors) > 0.85


def test_inflated_strip(make_rectangle):
    """The flat strip of 1 m under 500 Pa (circular arc, sag 0.1024474689 m, derived here): follower pressure."""
    errors = []
    for n in SIZES:
        mesh = make_rectangle(np.linspace(0, 1, n + 1), np.linspace(0, 2 / n, 3), "cross")
        x = mesh.points[:, 0]
        edge = (x < 1e-9) | (x > 1 - 1e-9)
        fixed = np.stack([edge, np.ones(len(x), dtype=bool), edge], axis=1)
        cloth = Membrane(mesh.triangles, mesh.flat, FabricLaw(20e3, 20e3, 0.3, 20e3 / 2.6))
        state = relax(Structure(mesh.raised, [cloth, Pressure(mesh.triangles, 500.0)], fixed=fixed), tolerance=1e-8)
        assert state.converged, state.message
        errors.append(abs(state.positions[:, 2].max() - 0.1024474689))
    assert slope(SIZES, errors) == pytest.approx(2, abs=0.15)
