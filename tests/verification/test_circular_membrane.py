"""Round membranes held at the rim: inflated, loaded by dead weight, pushed by a rigid disc.

All lengths over the radius a, all loads over the stiffness Eh; q = p a/(Eh).
"""

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from tautlay.solver import FabricLaw, Membrane, Pressure, Structure, relax

EH = 20e3  # N/m
RINGS = 30
TOLERANCE = 3e-3  # judged from convergence runs: 0.05 % is found at 30 rings, 0.5 % at 8

HENCKY = {  # nu: b0, then coefficients of deflection, centre, rim radial and rim hoop tension, volume
    0.0: (1.6204131, 0.7183192, 0.4051033, 0.2893720, 0.0, 1.1908849),
    0.1: (1.6487362, 0.6989018, 0.4121841, 0.3017803, 0.0301780, 1.1543189),
    0.2: (1.6827324, 0.6774353, 0.4206831, 0.3161093, 0.0632219, 1.1143780),
    0.25: (1.7024477, 0.6657913, 0.4256119, 0.3241708, 0.0810427, 1.0929189),
    0.3: (1.7244041, 0.6534433, 0.4311010, 0.3329568, 0.0998870, 1.0703167),
    1 / 3: (1.7404932, 0.6447764, 0.4351233, 0.3392768, 0.1130923, 1.0545451),
    0.4: (1.7768706, 0.6262551, 0.4442177, 0.3532327, 0.1412931, 1.0210909),
    0.5: (1.8453107, 0.5948790, 0.4613277, 0.3784121, 0.1892060, 0.9651629),
}
EXACT = [  # nu, q, deflection, centre stretch, centre tension, nominal rim tension
    (0.0, 1e-3, 0.071922157, 1.0040617, 0.0040699683, 0.0029086639),
    (0.0, 1e-2, 0.15566258, 1.0190330, 0.019214150, 0.013757545),
    (0.0, 0.1, 0.34259958, 1.0921894, 0.096438816, 0.069800243),
    (0.3, 1e-3, 0.065404375, 1.0030256, 0.0043288171, 0.0033420863),
    (0.3, 1e-2, 0.14138457, 1.0141760, 0.020394924, 0.015727169),
    (0.3, 5e-2, 0.24379945, 1.0423839, 0.061831618, 0.047584440),
    (0.3, 0.1, 0.30951538, 1.0685758, 0.10132451, 0.077916371),
    (0.4, 1e-2, 0.13541746, 1.0125189, 0.020995458, 0.016647880),
]


def isotropic(poisson, stiffness=EH):
    return FabricLaw(stiffness, stiffness, poisson, stiffness / (2 * (1 + poisson)))


def hold_quarter(mesh):
    """Supports of the quarter disc: the rim, and the two planes of symmetry."""
    x, y = mesh.points.T
    rim = np.hypot(x, y) > 1 - 1e-9
    return rim, np.stack([rim | (x < 1e-9), rim | (y < 1e-9), rim], axis=1)


def inflate(mesh, law, pressure, *, dead=False):
    """Relax the quarter disc under follower pressure, or the same load dead and upright."""
    _, fixed = hold_quarter(mesh)
    cloth = Membrane(mesh.triangles, mesh.flat, law)
    elements = [cloth] if dead else [cloth, Pressure(mesh.triangles, pressure)]
    forces = np.outer(mesh.tributary(), [0, 0, pressure]) if dead else None
    state = relax(Structure(mesh.raised, elements, fixed=fixed, forces=forces))
    assert state.converged, state.message
    return state, state[cloth]


def rim_tension(mesh, state):
    """Mean force per length of undeformed rim: reaction of the middle rim nodes over their share."""
    rim, _ = hold_quarter(mesh)
    x, y = mesh.points.T
    middle = rim & (x > 1e-9) & (y > 1e-9)  # nodes on a symmetry plane also carry its reaction
    share = np.pi / 2 / (rim.sum() - 1)
    return np.linalg.norm(state.reactions[middle], axis=1).mean() / share


def volume(mesh, positions):
    """Volume between the quarter disc and its plane, times four."""
    a, b, c = np.moveaxis(positions[mesh.triangles], 1, 0)
    double = (b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]
    return 4 * (double * (a + b + c)[:, 2]).sum() / 6


def hencky_series(poisson, terms=90):
    """Small strain, q = 1: N_r = sum c_n r^2n solves N_r^2 r (N_r + N_t)' = -r^2/8 with N_t = (r N_r)'."""

    def coefficients(centre):
        c = np.zeros(terms)
        c[0] = centre
        for n in range(1, terms):
            known = sum(
                2 * k * (2 * k + 2) * c[k] * np.convolve(c[: n - k + 1], c[: n - k + 1])[n - k] for k in range(1, n)
            )
            c[n] = ((-0.125 if n == 1 else 0.0) - known) / (2 * n * (2 * n + 2) * centre**2)
        return c

    powers = 2 * np.arange(terms)
    centre = brentq(lambda s: ((powers + 1 - poisson) * coefficients(s)).sum(), 0.3, 0.65, xtol=1e-13)
    c = coefficients(centre)
    slope = {power: quad(lambda r: r**power / 2 / (c * r**powers).sum(), 0, 1)[0] for power in (1, 3)}
    return 4 * centre, slope[1], centre, c.sum(), ((powers + 1) * c).sum(), np.pi * slope[3]


def shoot(poisson, q, *, dead=False):
    """Axisymmetric St. Venant-Kirchhoff membrane by shooting, exact geometry: the four numbers of EXACT."""

    def slopes(s, y):
        r, _, pr, pz = y
        tension, hoop = np.hypot(pr, pz) / s, ((r / s) ** 2 - 1) / 2
        stretch = brentq(
            lambda m: m * ((m * m - 1) / 2 + poisson * hoop) / (1 - poisson**2) - tension, 0.8, 3, xtol=1e-14
        )
        dr, dz = stretch * pr / s / tension, stretch * pz / s / tension
        hoop_force = r / s * (hoop + poisson * (stretch**2 - 1) / 2) / (1 - poisson**2)
        push = (0.0, q * s) if dead else (-q * r * dz, q * r * dr)
        return [dr, dz, hoop_force - push[0], -push[1]]

    def run(stretch):
        s, stress = 1e-6, (stretch**2 - 1) / 2 / (1 - poisson)
        load = q if dead else q * stretch**2
        start = [stretch * s, 0, stretch * stress * s, -load * s * s / 2]
        return solve_ivp(slopes, (s, 1), start, method="DOP853", rtol=1e-10, atol=1e-13).y[:, -1]

    stretch = brentq(lambda m: run(m)[0] - 1, 1.0005, 1.15, xtol=1e-12)
    end = run(stretch)
    return -end[1], stretch, (stretch**2 - 1) / 2 / (1 - poisson), np.hypot(end[2], end[3])


@pytest.mark.parametrize("poisson", HENCKY)
def test_hencky_series_reproduces_the_table(poisson):
    """H. Hencky, Z. Math. Phys. 63 (1915) 311-317, corrected by J. D. Campbell, Q. J. Mech. Appl. Math. 9
    (1956) 84-93; W. B. Fichter, NASA TP-3658 (1997): formulas from memory, coefficients computed here.
    """
    assert hencky_series(poisson) == pytest.approx(HENCKY[poisson], abs=1e-7)


@pytest.mark.parametrize("poisson", HENCKY)
def test_small_strain_follows_hencky(make_quarter_disc, poisson):
    """Hencky 1915, Campbell 1956, Fichter NASA TP-3658 1997 (from memory): every column, within 0.3 %.

    At q = 1e-5 the strain is 2e-4: Hencky's neglect of it is ten times smaller than the tolerance.
    """
    q = 1e-5
    mesh = make_quarter_disc(RINGS)
    state, cloth = inflate(mesh, isotropic(poisson), q * EH)
    _, deflection, centre, radial, hoop, enclosed = HENCKY[poisson]
    assert state.positions[0, 2] == pytest.approx(deflection * q ** (1 / 3), rel=TOLERANCE)
    assert cloth.tension[0] == pytest.approx(centre * EH * q ** (2 / 3), rel=TOLERANCE)
    assert rim_tension(mesh, state) == pytest.approx(radial * EH * q ** (2 / 3), rel=TOLERANCE)
    # the hoop tension of triangles lags half a ring behind the rim: extrapolate the last two rings
    distance = np.linalg.norm(mesh.flat.mean(axis=1), axis=1)
    smaller = cloth.tension[:, 1]
    last = np.polyfit(distance[distance > 0.8], smaller[distance > 0.8], 2)
    assert np.polyval(last, 1.0) / EH / q ** (2 / 3) == pytest.approx(hoop, abs=0.01 * centre)
    assert volume(mesh, state.positions) == pytest.approx(enclosed * q ** (1 / 3), rel=TOLERANCE)


@pytest.mark.parametrize("row", EXACT, ids=lambda row: f"nu{row[0]}-q{row[1]}")
def test_large_deflection_under_follower_pressure(make_quarter_disc, row):
    """Axisymmetric membrane equations integrated with exact geometry (derived here), within 0.3 %."""
    poisson, q, deflection, stretch, centre, rim = row
    mesh = make_quarter_disc(RINGS)
    state, cloth = inflate(mesh, isotropic(poisson), q * EH)
    assert state.positions[0, 2] == pytest.approx(deflection, rel=TOLERANCE)
    assert np.sqrt(1 + 2 * cloth.strain[0, :2]) - 1 == pytest.approx(stretch - 1, rel=2 * TOLERANCE)
    assert cloth.tension[0] == pytest.approx(centre * EH, rel=TOLERANCE)
    assert rim_tension(mesh, state) == pytest.approx(rim * EH, rel=TOLERANCE)


@pytest.mark.parametrize("row", [EXACT[1], EXACT[5]], ids=["nu0", "nu0.3"])
def test_shooting_reproduces_the_exact_rows(row):
    """The numbers of EXACT recomputed (derived here) to 1e-6."""
    assert shoot(row[0], row[1]) == pytest.approx(row[2:], rel=1e-6)


@pytest.mark.parametrize(("q", "deflection"), [(1e-2, 0.14072859), (0.1, 0.30317605)])
def test_large_deflection_under_dead_load(make_quarter_disc, q, deflection):
    """The same equations with an upright load on flat area (derived here), within 0.3 %."""
    assert shoot(0.3, q, dead=True)[0] == pytest.approx(deflection, rel=1e-6)
    state, _ = inflate(make_quarter_disc(RINGS), isotropic(0.3), q * EH, dead=True)
    assert state.positions[0, 2] == pytest.approx(deflection, rel=TOLERANCE)


def test_worked_case_in_engineering_units(make_quarter_disc):
    """E 200 MPa, 0.1 mm, radius 1 m, 500 Pa, nu 0.3 (derived here): 0.192590 m where Hencky has 0.191068."""
    mesh = make_quarter_disc(RINGS)
    state, cloth = inflate(mesh, isotropic(0.3, 200e6 * 1e-4), 500.0)
    assert state.positions[0, 2] == pytest.approx(0.192590, rel=TOLERANCE)
    assert state.positions[0, 2] != pytest.approx(0.191068, rel=TOLERANCE)  # small strain can be told apart
    assert cloth.tension[0] == pytest.approx(763.401, rel=TOLERANCE)
    assert rim_tension(mesh, state) == pytest.approx(588.073, rel=TOLERANCE)
    assert -4 * state.reactions[:, 2].sum() == pytest.approx(1570.796, rel=1e-3)  # the whole thrust, pi a^2 p


def test_deflection_converges_to_the_exact_one(make_quarter_disc):
    """Each halving of the mesh takes the error down by more than three (derived reference, nu 0.3, q 0.05)."""
    error = [inflate(make_quarter_disc(n), isotropic(0.3), 0.05 * EH)[0].positions[0, 2] for n in (8, 16, 32)]
    error = np.abs(np.array(error) / 0.24379945 - 1)
    assert (error[:-1] / error[1:] > 3).all()
    assert error[-1] < 6e-4


def push_disc(make_mesh, make_quarter_disc, poisson, radius, depth):
    """Push a rigid disc of ``radius`` by ``depth`` into the membrane and return the force, over Eh."""
    mesh = make_quarter_disc(RINGS, radius)
    r = np.hypot(*mesh.points.T)
    # w ~ 1 - r^(2/3): rings spaced evenly in r^(2/3) are short where the cloth is steep
    even = (r - radius) / (1 - radius)
    graded = (radius ** (2 / 3) + even * (1 - radius ** (2 / 3))) ** 1.5
    mesh = make_mesh(mesh.points * (graded / r)[:, None], mesh.triangles)
    _, fixed = hold_quarter(mesh)
    pushed = even < 1e-9
    positions = mesh.raised
    positions[pushed, 2] = -depth
    cloth = Membrane(mesh.triangles, mesh.flat, isotropic(poisson))
    start = mesh.raised
    start[:, 2] = -depth * (1 - graded ** (2 / 3)) / (1 - radius ** (2 / 3))
    state = relax(Structure(positions, [cloth], fixed=fixed | pushed[:, None]), start=start)
    assert state.converged, state.message
    assert (state[cloth].kind == 2).all()
    return -4 * state.reactions[pushed, 2].sum() / EH


@pytest.mark.parametrize(("radius", "coefficient"), [(0.1, 0.7725881), (0.2, 0.6479670)])
def test_rigid_disc_small_strain(make_mesh, make_quarter_disc, radius, coefficient):
    """E. Schwerin, Z. angew. Math. Mech. 9 (1929) 482-483 (from memory; coefficients derived here), nu = 1/3:
    w = a (3P / (pi Eh a))^(1/3) (1 - (c/a)^(2/3)). Within 0.3 % in w for the force found.
    """
    depth = 0.01
    assert (3 / np.pi) ** (1 / 3) * (1 - radius ** (2 / 3)) == pytest.approx(coefficient, abs=1e-7)
    force = push_disc(make_mesh, make_quarter_disc, 1 / 3, radius, depth)
    assert coefficient * force ** (1 / 3) == pytest.approx(depth, rel=TOLERANCE)


@pytest.mark.parametrize(("radius", "depth"), [(0.1, 0.16778676), (0.2, 0.14071492)])
def test_rigid_disc_large_strain(make_mesh, make_quarter_disc, radius, depth):
    """P/(Eh a) = 0.01 at nu 0.3, by shooting with exact geometry (derived here). The force goes with the
    cube of the depth: 0.3 % in depth is 0.9 % in force.
    """
    force = push_disc(make_mesh, make_quarter_disc, 0.3, radius, depth)
    assert force == pytest.approx(0.01, rel=3 * TOLERANCE)
