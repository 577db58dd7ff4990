"""Buckling of pin-ended bars of several sections, against Euler, Timoshenko and Gere's tables, and beam elements."""

from math import pi, tan

import numpy as np
import pytest
from scipy.linalg import eigh
from scipy.optimize import brentq

from tautlay.materials import buckling_load

# Timoshenko and Gere, Theory of Elastic Stability (1961), from memory: three sections, symmetric, the middle one of
# length a with EI2, the outer two with EI1; P L^2 / EI2 by I1/I2 and a/L = 0.2, 0.4, 0.6, 0.8
THREE = {
    0.01: (0.153444, 0.270524, 0.598432, 2.257060),
    0.1: (1.467501, 2.400627, 4.497779, 8.587989),
    0.2: (2.795506, 4.221796, 6.694182, 9.330144),
    0.4: (5.088440, 6.677388, 8.509800, 9.674209),
    0.6: (6.979413, 8.185004, 9.243775, 9.783837),
    0.8: (8.551221, 9.176720, 9.631456, 9.837646),
}
PRINTED = {0.01: (0.15, 0.27, 0.60, 2.26), 0.1: (1.47, 2.40, 4.50, 8.59)}  # the table's own rounding
# two sections, the weak one of length l1: derived, P L^2 / EI2 by I1/I2 and l1/L
TWO = {
    (0.5, 0.2): 9.366469, (0.5, 0.4): 7.337175, (0.5, 0.5): 6.407701, (0.5, 0.6): 5.735798, (0.5, 0.8): 5.051613,
    (0.25, 0.2): 8.269392, (0.25, 0.4): 4.599530, (0.25, 0.5): 3.650519, (0.25, 0.6): 3.077166, (0.25, 0.8): 2.553777,
}  # fmt: skip
# a joint of stiffness c in the middle: tan u = (c L/EI)/u, P L^2/EI = 4 u^2 (derived)
LOOSE = {0.1: 0.3870155, 1: 2.9606955, 5: 6.9046782, 10: 8.1666780, 50: 9.4864732}


@pytest.mark.parametrize("ratio", THREE)
@pytest.mark.parametrize("place", range(4))
def test_three_sections(ratio, place):
    a = (0.2, 0.4, 0.6, 0.8)[place]
    found = buckling_load([(1 - a) / 2, a, (1 - a) / 2], [ratio, 1.0, ratio])
    assert found == pytest.approx(THREE[ratio][place], abs=6e-7)
    if ratio in PRINTED:
        assert found == pytest.approx(PRINTED[ratio][place], abs=0.0051)


@pytest.mark.parametrize(("ratio", "share"), TWO)
def test_two_sections(ratio, share):
    assert buckling_load([share, 1 - share], [ratio, 1.0]) == pytest.approx(TWO[ratio, share], rel=1e-6)
    assert buckling_load([1 - share, share], [1.0, ratio]) == pytest.approx(TWO[ratio, share], rel=1e-6)


@pytest.mark.parametrize("stiffness", LOOSE)
def test_loose_joint_in_the_middle(stiffness):
    found = buckling_load([0.5, 0.5], [1.0, 1.0], joint_stiffness=[stiffness])
    assert found == pytest.approx(LOOSE[stiffness], rel=1e-6)
    u = brentq(lambda u: tan(u) - stiffness / u, 1e-9, pi / 2 - 1e-12)
    assert found == pytest.approx(4 * u * u, rel=1e-9)


def test_cantilever_by_symmetry():
    """Half of a symmetric column on pins: I1/I2 = 0.5 on the free half of a cantilever, 2.0672329 EI2/L^2 (derived)."""
    found = buckling_load([0.5, 1.0, 0.5], [0.5, 1.0, 0.5])
    assert found == pytest.approx(2.0672329, rel=1e-6)


def test_sleeve_inside_a_tube():
    """Tube 16 x 1 mm, E = 70 GPa, L = 0.9 m, inner sleeve 13.9 x 1 x 120 mm, bonded: derived, 1e-6."""
    E = 70e9
    tube = E * pi / 64 * (0.016**4 - 0.014**4)
    sleeve = E * pi / 64 * (0.0139**4 - 0.0119**4)
    assert tube == pytest.approx(93.187492, rel=1e-6)
    assert buckling_load([0.9], [tube]) == pytest.approx(1135.4613, rel=1e-6)
    assert buckling_load([0.39, 0.12, 0.39], [tube, tube + sleeve, tube]) == pytest.approx(1262.2999, rel=1e-5)
    assert buckling_load([0.24, 0.12, 0.54], [tube, tube + sleeve, tube]) == pytest.approx(1226.8266, rel=1e-5)


def solve_beams(lengths, rigidities, joints, parts=12):
    """Return the lowest buckling load by Hermite beam elements with geometric stiffness, another route."""
    steps = [
        (length / parts, rigidity) for length, rigidity in zip(lengths, rigidities, strict=True) for _ in range(parts)
    ]
    count = len(steps)
    slopes = count + 1 + len(joints)
    K, G = np.zeros((count + 1 + slopes,) * 2), np.zeros((count + 1 + slopes,) * 2)
    slope = 0
    for n, (h, EI) in enumerate(steps):
        if n and n % parts == 0:
            c = joints[n // parts - 1]
            a, b = count + 1 + slope, count + 2 + slope
            for i, j, sign in ((a, a, 1), (b, b, 1), (a, b, -1), (b, a, -1)):
                K[i, j] += sign * c
            slope += 1
        dofs = [n, count + 1 + slope, n + 1, count + 2 + slope]
        slope += 1
        k = (
            EI
            / h**3
            * np.array(
                [
                    [12, 6 * h, -12, 6 * h],
                    [6 * h, 4 * h * h, -6 * h, 2 * h * h],
                    [-12, -6 * h, 12, -6 * h],
                    [6 * h, 2 * h * h, -6 * h, 4 * h * h],
                ]
            )
        )
        g = (
            1
            / (30 * h)
            * np.array(
                [
                    [36, 3 * h, -36, 3 * h],
                    [3 * h, 4 * h * h, -3 * h, -h * h],
                    [-36, -3 * h, 36, -3 * h],
                    [3 * h, -h * h, -3 * h, 4 * h * h],
                ]
            )
        )
        K[np.ix_(dofs, dofs)] += k
        G[np.ix_(dofs, dofs)] += g
    kept = np.setdiff1d(np.arange(len(K)), [0, count])
    return 1 / eigh(G[np.ix_(kept, kept)], K[np.ix_(kept, kept)], eigvals_only=True)[-1]


@pytest.mark.parametrize("seed", range(12))
def test_random_bars_against_beam_elements(seed):
    """Two to five sections of very different rigidity, with and without loose joints: 0.01 %."""
    rng = np.random.default_rng(seed)
    count = int(rng.integers(2, 6))
    lengths, rigidities = rng.uniform(0.05, 0.5, count), 10 ** rng.uniform(-1, 3, count)
    joints = 10 ** rng.uniform(0, 4, count - 1)
    found = buckling_load(lengths, rigidities, joint_stiffness=joints)
    assert found == pytest.approx(solve_beams(lengths, rigidities, joints), rel=1e-4)
    assert found < buckling_load(lengths, rigidities)


def test_joints_so_stiff_that_they_are_rigid():
    assert buckling_load([0.3, 0.6], [50.0, 90.0], joint_stiffness=[1e12]) == pytest.approx(
        buckling_load([0.3, 0.6], [50.0, 90.0]), rel=1e-6
    )


def test_scales_as_rigidity_over_length_squared():
    one, other = buckling_load([0.3, 0.5], [40.0, 70.0]), buckling_load([0.6, 1.0], [120.0, 210.0])
    assert other == pytest.approx(one * 3 / 4, rel=1e-12)


@pytest.mark.parametrize(
    ("lengths", "rigidities", "joints"),
    [
        ([], [], None),
        ([1.0], [1.0, 2.0], None),
        ([1.0, 1.0], [1.0, 1.0], [1.0, 1.0]),
        ([0.0], [1.0], None),
        ([1.0], [float("nan")], None),
        ([1.0, 1.0], [1.0, 1.0], [-1.0]),
        ([float("inf")], [1.0], None),
    ],
)
def test_what_is_no_bar_is_refused(lengths, rigidities, joints):
    with pytest.raises(ValueError, match=r"must be positive|needs as many"):
        buckling_load(lengths, rigidities, joint_stiffness=joints)
