"""Single cables: elastic catenary and parabola, hung as chains of straight segments.

Straight segments converge with the square of their number. Sources: H. M. Irvine, Cable Structures (1981),
chapter 1 (formulae from memory); the tabulated numbers are their evaluation, recomputed here by scipy.
"""

from typing import NamedTuple

import numpy as np
import pytest

from tautlay.solver import Cable, Structure, relax

from ._exact import hang_cable, parabola_length, stretch_parabola

G = 9.80665


class Case(NamedTuple):
    """A cable and its published figures: m, N, N/m of unstretched length."""

    span: float
    drop: float
    length: float
    weight: float
    ea: float
    H: float
    V: float
    T1: float
    T2: float
    sag: float
    stretched: float


CASES = {
    "slack level": Case(
        4, 0, 4.1, 0.05, 8000, 0.2589781690, 0.1025, 0.2785245807, 0.2785245807, 0.3909413655, 4.1001361143
    ),
    "soft, shorter than its chord": Case(
        10, 2, 9.8, 20, 5000, 284.3860067, 156.8325453, 324.7642961, 287.0705319, 0.8542451211, 10.3794215943
    ),
    "long inclined": Case(
        100, 30, 120, 10, 1e6, 517.6813139, 800.7474848, 953.5148018, 653.7556987, 26.9626968851, 120.0770948954
    ),
    "inextensible": Case(1, 0, 1.2, 1, np.inf, 0.4695415231, 0.6, 0.7618853207, 0.7618853207, 0.2923437976, 1.2),
}
STIFF = 1e6  # times the weight: stands for an inextensible cable, strain 1e-6


def hang_chain(case, count):
    """Return the solved chain of ``count`` equal segments, started from a slack V below the chord."""
    t = np.linspace(0, 1, count + 1)
    dip = 0.3 * case.length * (1 - np.abs(2 * t - 1))
    positions = np.stack([case.span * t, 0 * t, -case.drop * t - dip], axis=1)
    segments = np.stack([np.arange(count), np.arange(1, count + 1)], axis=1)
    ea = case.ea if np.isfinite(case.ea) else STIFF * case.weight * case.length
    cable = Cable(segments, ea, case.length / count, mass=case.weight / G)
    held = np.isin(np.arange(count + 1), (0, count))
    structure = Structure(positions, [cable], fixed=held)
    state = relax(structure)
    assert state.converged, state.message
    return state, state[cable]


def measure_sag(case, state):
    """Return the largest vertical distance of a node below the chord, m."""
    x, _, z = state.positions.T
    return float((-z - case.drop * x / case.span).max())


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_formula_gives_the_tabulated_catenary(case):
    """Elastic catenary, Irvine (1981) ch. 1, formulae from memory; tabulated figures to their last digit."""
    exact = hang_cable(case.span, case.drop, case.length, case.weight, case.ea)
    found = [exact.H, exact.V, exact.tension(0), exact.tension(case.length), exact.sag()[0], exact.stretched_length()]
    np.testing.assert_allclose(found, case[5:], rtol=2e-10, atol=1e-10)


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_twenty_segments_hang_like_the_catenary(case):
    """Elastic catenary, Irvine (1981) ch. 1, from memory. 20 straight segments: forces 0.2 %, sag 0.2 %.

    The stretched length follows to 1e-4.
    """
    state, carried = hang_chain(case, 20)
    # Half the end segment's weight goes straight into the support: the reaction is the cable's whole pull.
    pull = state.reactions[[0, -1]]
    V2 = case.weight * case.length - case.V
    np.testing.assert_allclose(pull[:, 0], [-case.H, case.H], rtol=2e-3)
    np.testing.assert_allclose(pull[:, 2], [case.V, V2], rtol=2e-3)
    np.testing.assert_allclose(np.linalg.norm(pull, axis=1), [case.T1, case.T2], rtol=2e-3)
    assert measure_sag(case, state) == pytest.approx(case.sag, rel=2e-3)
    assert carried.length.sum() == pytest.approx(case.stretched, rel=1e-4)


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_chain_converges_with_the_square_of_the_segment_count(case):
    """Straight segments are second-order: the rate of H is 2 +- 0.1 from 10 to 80 segments; 80 give 0.02 %."""
    counts = np.array([10, 20, 40, 80])
    exact = hang_cable(case.span, case.drop, case.length, case.weight, case.ea)
    error = [abs(hang_chain(case, n)[0].reactions[-1, 0] / exact.H - 1) for n in counts]
    rate = -np.polyfit(np.log(counts), np.log(error), 1)[0]
    assert rate == pytest.approx(2.0, abs=0.1)
    assert error[-1] < 2e-4


def test_material_mid_point_of_the_soft_cable():
    """Elastic catenary, Irvine (1981) ch. 1, from memory: the middle of the material; 1e-4 of the span, 40 segments."""
    state, _ = hang_chain(CASES["soft, shorter than its chord"], 40)
    np.testing.assert_allclose(state.positions[20], [4.8480290138, 0, -1.8235025204], atol=1e-3)


def test_reactions_carry_the_whole_weight():
    """Overall equilibrium: the supports carry wL, to the solver's tolerance."""
    case = CASES["long inclined"]
    state, _ = hang_chain(case, 20)
    np.testing.assert_allclose(state.reactions.sum(axis=0), [0, 0, case.weight * case.length], atol=1e-6 * 1200)


def load_level_cable(length, count, *, span=4.0, load=100.0, ea=20e3):
    """Return a cable under ``load`` N per horizontal metre, its nodes shared out so as to end at equal x.

    The unstretched length of each piece comes from the exact parabola; shape and tension are the solver's.
    """
    H = stretch_parabola(span, load, length, ea)
    ends = np.linspace(-span / 2, span / 2, count + 1)
    rest = [parabola_length(span, load, H, ea, a, b) for a, b in zip(ends[:-1], ends[1:], strict=True)]
    assert sum(rest) == pytest.approx(length, rel=1e-9)
    positions = np.stack([ends, 0 * ends, -0.1 * (1 - np.abs(ends) / (span / 2))], axis=1)
    cable = Cable(np.stack([np.arange(count), np.arange(1, count + 1)], axis=1), ea, rest)
    forces = np.zeros((count + 1, 3))
    forces[1:-1, 2] = -load * span / count
    held = np.isin(np.arange(count + 1), (0, count))
    state = relax(Structure(positions, [cable], fixed=held, forces=forces), tolerance=1e-10)
    assert state.converged, state.message
    # the end nodes' own share of the load goes straight into the supports
    return state, np.hypot(state.reactions[0, 0], state.reactions[0, 2] + load * span / count / 2)


@pytest.mark.parametrize(
    ("length", "H", "sag", "T"),
    [(4.0, 502.6456523, 0.3978946184, 540.9737995), (4.2, 306.0409520, 0.6535073124, 365.5968603)],
)
def test_elastic_cable_under_level_load(length, H, sag, T):
    """Elastic parabola, q = 100 N per horizontal m, EA = 20 kN, l = 4 m: derived; 40 segments to 0.05 %."""
    exact = stretch_parabola(4.0, 100.0, length, 20e3)
    assert exact == pytest.approx(H, rel=1e-9)
    state, end_tension = load_level_cable(length, 40)
    assert state.reactions[-1, 0] == pytest.approx(H, rel=5e-4)
    assert -state.positions[20, 2] == pytest.approx(sag, rel=5e-4)
    assert end_tension == pytest.approx(T, rel=5e-4)


@pytest.mark.parametrize("count", [8, 20])
def test_parabola_is_the_funicular_of_a_level_load(count):
    """H = q l^2/(8 d), l = 4 m, d = 0.5 m, q = 100 N/m: exact for any chain with nodes at equal x; 1e-7.

    Textbook statics, common practice, no source. The end tension is that of the curve, 447.2135955 N, its
    slope atan(4 d/l) = 26.565051 deg and the arc 4.1609152777 m (chain: short by order 1/n^2).
    """
    span, d, q, ea = 4.0, 0.5, 100.0, 1e6
    H = q * span**2 / (8 * d)
    x = np.linspace(0, span, count + 1)
    shape = np.stack([x, 0 * x, -4 * d * x * (span - x) / span**2], axis=1)
    length = np.linalg.norm(np.diff(shape, axis=0), axis=1)
    tension = H * length / (span / count)
    cable = Cable(np.stack([np.arange(count), np.arange(1, count + 1)], axis=1), ea, length / (1 + tension / ea))
    forces = np.zeros((count + 1, 3))
    forces[:, 2] = -q * span / count * np.where(np.isin(np.arange(count + 1), (0, count)), 0.5, 1.0)
    start = shape * [1, 1, 0.5] + 0.02 * np.sin(7 * x)[:, None] * [1, 1, 0] * np.sin(np.pi * x / span)[:, None]
    structure = Structure(shape, [cable], fixed=np.isin(np.arange(count + 1), (0, count)), forces=forces)
    state = relax(structure, start=start, tolerance=1e-11)
    assert state.converged, state.message
    np.testing.assert_allclose(state.positions, shape, atol=1e-7)
    pull = state.reactions[0]
    assert H == 400.0
    assert -pull[0] == pytest.approx(400.0, rel=1e-7)
    assert np.linalg.norm(pull) == pytest.approx(447.2135955, rel=1e-7)
    assert np.degrees(np.arctan2(pull[2], -pull[0])) == pytest.approx(26.565051, abs=1e-5)
    assert state[cable].length.sum() == pytest.approx(4.1609152777, rel=0.5 / count**2)
