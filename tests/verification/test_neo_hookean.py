r"""A law of cloth that the solver does not know, against closed forms: the neo-Hookean sheet of the contract tests.

With the modulus times thickness :math:`\mu` and force per width as cut, L. R. G. Treloar, The Physics of Rubber
Elasticity, 3rd ed. (1975), ch. 5 (from memory): simple tension :math:`\mu(\lambda - \lambda^{-2})`, pure shear
:math:`\mu(\lambda - \lambda^{-3})`, both ways alike :math:`\mu(\lambda - \lambda^{-5})`.
"""

import numpy as np
import pytest
from scipy.optimize import brentq, minimize

from tautlay.solver import Membrane, Pressure, Structure, relax

from ..contract._neo_hookean import NeoHookean
from ._surfaces import lay_flat, make_octant

MU = 20e3  # N/m
LAW = NeoHookean(MU)
CORNERS = np.array([[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]])
TESTS = {  # stretch across by that along, and force per width as cut over mu
    "simple tension": (lambda a: a**-0.5, lambda a: a - a**-2),
    "pure shear": (lambda a: 1.0, lambda a: a - a**-3),
    "both ways": (lambda a: a, lambda a: a - a**-5),
    "gathered to half": (lambda a: 0.5 * a**-0.5, lambda a: a - a**-2),
}


def stretch_triangle(along, across):
    """Return what one triangle carries, turned in its flat state by a random angle."""
    c, s = np.cos(0.7), np.sin(0.7)
    flat = CORNERS @ [[c, s], [-s, c]]
    places = np.pad(CORNERS * [along, across], ((0, 0), (0, 1)))
    return Membrane([[0, 1, 2]], flat[None], LAW).result(places)


@pytest.mark.parametrize("along", [1.001, 1.2, 2.0, 4.0])
@pytest.mark.parametrize("name", TESTS)
def test_force_per_width_as_cut(name, along):
    across, force = TESTS[name]
    found = stretch_triangle(along, across(along))
    assert found.nominal[0, 0] == pytest.approx(MU * force(along), rel=1e-9)
    if "tension" in name or "gathered" in name:
        assert found.nominal[0, 1] == pytest.approx(0, abs=1e-9 * MU)
        assert np.abs(found.direction[0]) == pytest.approx([1, 0, 0], abs=1e-6)


@pytest.mark.parametrize("along", [1.001, 1.2, 2.0, 4.0])
def test_natural_width_parts_taut_from_wrinkled(along):
    """lambda2 = lambda1^-1/2: D. J. Steigmann, Proc. R. Soc. Lond. A 429 (1990) 141-173 (from memory)."""
    kinds = [stretch_triangle(along, along**-0.5 * (1 + by)).kind[0] for by in (-1e-9, 1e-9)]
    assert kinds == [1, 2]
    assert stretch_triangle(1.0, 1 / along).kind[0] == 0


@pytest.mark.slow
def test_energy_is_the_least_over_all_wrinkles():
    """W(E) = least W(C + L L^T) over wrinkle strains, by descent: A. C. Pipkin, IMA J. Appl. Math. 36 (1986) 85-99."""
    rng = np.random.default_rng(21)
    kinds = set()
    for _ in range(60):
        F = np.eye(2) + 0.5 * rng.normal(size=(2, 2))
        C = F.T @ F
        strain = np.array([[(C[0, 0] - 1) / 2, (C[1, 1] - 1) / 2, C[0, 1]]])

        def energy(p, C=C):
            L = np.array([[p[0], 0], [p[1], p[2]]])
            wide = C + L @ L.T
            return 0.5 * (np.trace(wide) + 1 / np.linalg.det(wide) - 3)

        runs = [minimize(energy, start, method="BFGS", options={"gtol": 1e-10}) for start in rng.normal(size=(6, 3))]
        found = LAW.respond(strain)
        least = min(energy([0, 0, 0]), *(run.fun for run in runs))
        assert found.energy[0] == pytest.approx(MU * least, rel=1e-6, abs=1e-9 * MU)
        kinds.add(int(found.kind[0]))
    assert kinds == {0, 1, 2}


@pytest.mark.parametrize("side", [1e-6, 0.05, 0.5])
def test_strip_is_as_wide_as_its_side_pull_makes_it(make_rectangle, side):
    """Pulled to 1.6 times its length, with the force ``side`` mu per length as cut on its free sides (homogeneous):
    mu (b - a^-2 b^-3) = side, all but the natural width a^-1/2 where that is nothing; both within 1e-5.
    """
    along, cells = 1.6, 8
    mesh = make_rectangle(np.linspace(0, 1, cells + 1), np.linspace(-0.2, 0.2, 5), "cross")
    x, y = mesh.points.T
    places = mesh.raised * [along, 1, 1]
    middle = np.abs(y) < 1e-9
    fixed = np.stack([(x < 1e-9) | (x > 1 - 1e-9), middle, np.ones(len(x), dtype=bool)], axis=1)
    share = np.where((x < 1e-9) | (x > 1 - 1e-9), 0.5, 1.0) / cells
    pull = np.where(np.abs(y) > 0.2 - 1e-9, np.sign(y), 0) * side * MU * share
    cloth = Membrane(mesh.triangles, mesh.flat, LAW)
    forces = np.outer(pull, [0, 1, 0])
    state = relax(Structure(places, [cloth], fixed=fixed, forces=forces), tolerance=1e-9 if side > 1e-3 else 1e-6)
    assert state.converged, state.message
    width = brentq(lambda b: b - along**-2 * b**-3 - side, 0.5, 3, xtol=1e-14)
    assert np.ptp(state.positions[:, 1]) == pytest.approx(0.4 * width, rel=1e-5)
    force = MU * (along - along**-3 * width**-2)
    ends = x > 1 - 1e-9
    assert state.reactions[ends, 0].sum() == pytest.approx(0.4 * force, rel=1e-5)
    if side < 1e-3:
        assert width == pytest.approx(along**-0.5, rel=1e-6)


@pytest.mark.parametrize("shear", [0.3, 1.5])
def test_sheet_sheared_between_rails_is_a_tension_field(make_rectangle, shear):
    """Simple shear is area-preserving, so that all of it wrinkles: with a - 1/a = shear the energy per area is
    mu/2 (a^2 + 2/a - 3), and its slope by the shear is the force per length (derived). The start is disordered.
    """
    mesh = make_rectangle(np.linspace(0, 1.2, 13), np.linspace(0, 0.8, 9), "cross")
    places = mesh.raised
    places[:, 0] += shear * places[:, 1]
    held = mesh.boundary()
    cloth = Membrane(mesh.triangles, mesh.flat, LAW)
    disorder = 0.02 * np.random.default_rng(3).normal(size=places.shape)
    state = relax(Structure(places, [cloth], fixed=held), start=places + disorder, tolerance=1e-7)
    assert state.converged, state.message
    a = (shear + np.hypot(shear, 2)) / 2
    assert state.energy == pytest.approx(0.96 * MU / 2 * (a**2 + 2 / a - 3), rel=1e-6)
    assert (state[cloth].kind == 1).all()
    slope = MU * (a - a**-2) * a / (a + 1 / a)
    work = (state.reactions[held, 0] * mesh.points[held, 1]).sum()
    assert work == pytest.approx(0.96 * slope, rel=1e-5)


@pytest.mark.parametrize("stretch", [1.05, 1.2, 1.3])
def test_balloon_before_its_highest_pressure(stretch):
    """p = 2 mu/R (1/a - a^-7) at the stretch a, highest at 7^(1/6) = 1.383; true line stress mu (1 - a^-6).

    A. E. Green and J. E. Adkins, Large Elastic Deformations (1960), inflation of a spherical shell, thin (from
    memory); 24 cells to a quarter of the equator find the radius to 0.25 %: the facets lack area, and close to
    the highest pressure the stretch grows fast with what is lacking.
    """
    points, triangles = make_octant(24)
    points *= 0.5
    cloth = Membrane(triangles, lay_flat(points, triangles), LAW)
    pressure = 2 * MU / 0.5 * (1 / stretch - stretch**-7)
    structure = Structure(points, [cloth, Pressure(triangles, pressure)], fixed=points < 1e-9)
    state = relax(structure, start=points * stretch)
    assert state.converged, state.message
    radius = np.linalg.norm(state.positions, axis=1)
    assert radius.mean() / 0.5 == pytest.approx(stretch, rel=2.5e-3)
    assert state[cloth].tension.mean() == pytest.approx(MU * (1 - stretch**-6), rel=4e-3)
    assert (state[cloth].kind == 2).all()
