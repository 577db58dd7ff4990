"""Square airbag: two flat squares joined at the seam and blown up, most of it wrinkled.

Case: P. Contri and B. A. Schrefler, A geometrically nonlinear finite element analysis of wrinkled
membrane surfaces by a no-compression material model, Commun. Appl. Numer. Meth. 4 (1988) 5-15 (inputs from
memory). Reference: relaxed energy on meshes of up to 64 x 64, derived here; published centre deflections from
memory 0.205 m (1988) to 0.216-0.217 m (later relaxed membranes). Computed here: 0.2165 m, 6 % above the first and level
with the later ones.
"""

import numpy as np
import pytest

from tautlay.solver import FabricLaw, Membrane, Pressure, Structure, relax

THICKNESS = 0.6e-3  # m
PRESSURE = 5e3  # N/m2
HALF = 1.2 / np.sqrt(2) / 2  # half the side of a square with a diagonal of 1.2 m


def blow_up(make_rectangle, cells, diagonals="cross", **options):
    """Relax a quarter of the upper sheet: two planes of symmetry, seam held at z = 0 only."""
    mesh = make_rectangle(np.linspace(0, HALF, cells + 1), np.linspace(0, HALF, cells + 1), diagonals)
    x, y = mesh.points.T
    seam = (x > HALF - 1e-9) | (y > HALF - 1e-9)
    fixed = np.stack([x < 1e-9, y < 1e-9, seam], axis=1)
    stiffness = 588e6 * THICKNESS
    law = FabricLaw(stiffness, stiffness, 0.4, stiffness / 2.8)
    cloth = Membrane(mesh.triangles, mesh.flat, law)
    structure = Structure(mesh.raised, [cloth, Pressure(mesh.triangles, PRESSURE)], fixed=fixed)
    state = relax(structure, **options)
    assert state.converged, state.message
    return mesh, state, state[cloth]


@pytest.mark.parametrize(
    ("cells", "diagonals"),
    [(16, "cross"), (32, "same"), pytest.param(64, "same", marks=pytest.mark.slow)],
)
def test_square_airbag(make_rectangle, cells, diagonals):
    """Tolerances: deflection 0.5 %, corner and stress 3 %, volume 0.3 %, side 2 %.

    The side is the loosest number: the seam folds up there, and meshes finer than 16 cells have several
    local minima whose seams differ by millimetres while their energies differ by 1e-5.
    """
    mesh, state, cloth = blow_up(make_rectangle, cells, diagonals)
    at = state.positions.reshape(cells + 1, cells + 1, 3)
    assert at[0, 0, 2] == pytest.approx(0.2165, rel=0.005)
    assert np.sqrt(2) * HALF - np.linalg.norm(at[-1, -1]) == pytest.approx(0.0492, rel=0.03)
    assert HALF - at[-1, 0, 0] == pytest.approx(0.1232, rel=0.02)
    assert HALF - at[0, -1, 1] == pytest.approx(0.1232, rel=0.02)

    first_piola = np.sqrt(1 + 2 * cloth.strain[:, :2]) * cloth.pk2[:, :2] / THICKNESS  # shear vanishes at the centre
    centre = np.linalg.norm(mesh.flat.mean(axis=1), axis=1) < 0.08 * HALF
    assert first_piola[centre].mean(axis=0) == pytest.approx(3.89e6, rel=0.03)

    a, b, c = np.moveaxis(state.positions[mesh.triangles], 1, 0)
    volume = 8 * (np.cross(b - a, c - a)[:, 2] * (a + b + c)[:, 2]).sum() / 6
    assert volume == pytest.approx(0.1250, rel=0.003)

    share = [mesh.areas()[cloth.kind == kind].sum() / HALF**2 for kind in (0, 1, 2)]
    assert share[0] == 0.0
    assert 0.63 < share[1] < 0.72


def test_airbag_deflection_does_not_hang_on_the_mesh(make_rectangle):
    found = [blow_up(make_rectangle, cells)[1].positions[0, 2] for cells in (8, 16, 32)]
    assert found == pytest.approx([0.2165] * 3, rel=0.005)


def test_airbag_by_both_methods(make_rectangle):
    implicit = blow_up(make_rectangle, 16, gear="implicit")[1]
    explicit = blow_up(make_rectangle, 16, gear="explicit")[1]
    assert explicit.positions == pytest.approx(implicit.positions, abs=1e-5)
    assert explicit.energy == pytest.approx(implicit.energy, rel=1e-8)
