"""Spreader bars in their bridles: struts between cords, forces by statics.

The bridle rows are textbook statics (common practice, no source), W = 400 N, half a bar of 0.45 m. Buckling
of bars is no matter of these elements and is checked elsewhere.
"""

import numpy as np
import pytest

from tautlay.solver import Cable, Reason, Rod, SlidingCable, Structure, Strut, relax

HALF, W, EA = 0.45, 400.0, 50e3
BRIDLES = [(0.5, 269.072481, 180.0), (0.9, 223.606798, 100.0)]  # drop m, line N, thrust N


def build_bridle(drop, bar, *, skew=0.0, bar_length=None):
    """Return a bar hung by two lines from a held apex, W/2 at each end, started away from its place.

    Rest lengths are such that the loaded bar is 2 HALF long and hangs ``drop`` below the apex.
    """
    line_length = np.hypot(HALF, drop)
    line_tension = W / 2 * line_length / drop
    thrust = W / 2 * HALF / drop
    lines = Cable([[0, 1], [0, 2]], EA, line_length / (1 + line_tension / EA))
    across = bar([[1, 2]], EA, bar_length or 2 * HALF / (1 - thrust / EA))
    positions = [[0, 0, 0], [0.1, -HALF - skew, -drop + skew], [-0.05, HALF - skew, -drop - 0.1]]
    forces = [[0, 0, 0], [0, 0, -W / 2], [0, 0, -W / 2]]
    structure = Structure(positions, [lines, across], fixed=[True, False, False], forces=forces)
    return structure, lines, across


@pytest.mark.parametrize(("drop", "line", "thrust"), BRIDLES)
@pytest.mark.parametrize("bar", [Strut, Rod])
@pytest.mark.parametrize("gear", ["implicit", "explicit"])
def test_bridle(bar, gear, drop, line, thrust):
    """Bridle: line (W/2) l/d, thrust (W/2) b/d; textbook statics, 1e-6."""
    structure, lines, across = build_bridle(drop, bar, skew=0.05)
    state = relax(structure, tolerance=1e-8, gear=gear)
    assert state.converged, state.message
    np.testing.assert_allclose(state[lines].tension, line, rtol=1e-6)
    found = state[across].thrust if bar is Strut else -state[across].force
    np.testing.assert_allclose(found, thrust, rtol=1e-6)
    # the bar may turn about the plumb line through the apex, but neither drop nor length depends on it
    np.testing.assert_allclose(state.positions[1:, 2], -drop, atol=1e-5)
    assert np.linalg.norm(state.positions[1] - state.positions[2]) == pytest.approx(2 * HALF, abs=1e-6)
    np.testing.assert_allclose(state.reactions[0], [0, 0, W], atol=1e-4)


@pytest.mark.parametrize("share", [0.5, 0.6, 0.75])
def test_bar_tilts_until_its_load_hangs_below_the_apex(share):
    """Unequal loads: their common centre comes to hang plumb below the apex (textbook statics); 1e-6 m.

    The bar slides down on the heavier side; the free body at each end is in balance with line and bar.
    """
    structure, lines, across = build_bridle(0.5, Strut)
    forces = np.array([[0, 0, 0], [0, 0, -W * share], [0, 0, -W * (1 - share)]])
    structure = Structure(structure.positions, [lines, across], fixed=[True, False, False], forces=forces)
    state = relax(structure, tolerance=1e-10)
    assert state.converged, state.message
    apex, *ends = state.positions
    centre = share * ends[0] + (1 - share) * ends[1]
    np.testing.assert_allclose(centre[:2], 0.0, atol=1e-6)
    along = (ends[1] - ends[0]) / np.linalg.norm(ends[1] - ends[0])
    for k, outward in ((0, -along), (1, along)):
        pull = state[lines].tension[k] * (apex - ends[k]) / np.linalg.norm(apex - ends[k])
        balance = pull + state[across].thrust[0] * outward + forces[1 + k]
        np.testing.assert_allclose(balance, 0.0, atol=1e-6 * W)
    assert state[across].thrust[0] > 0


def test_bar_too_short_carries_nothing():
    """Lines that hang plumb press on no bar: a short loose strut drops out, a rod would pull them together.

    Textbook statics: the strut's thrust is zero and each line carries W/2; the rod's force is a pull.
    """
    loose = {}
    for bar in (Strut, Rod):
        lines = Cable([[0, 2], [1, 3]], EA, 1.0)
        across = bar([[2, 3]], EA, 0.8)
        positions = [[0, -HALF, 0], [0, HALF, 0], [0.1, -HALF, -0.9], [0.1, HALF, -0.9]]
        forces = [[0, 0, 0], [0, 0, 0], [0, 0, -W / 2], [0, 0, -W / 2]]
        structure = Structure(positions, [lines, across], fixed=[True, True, False, False], forces=forces)
        state = relax(structure, tolerance=1e-9)
        assert state.converged, state.message
        loose[bar] = state, state[across], state[lines].tension
    state, carried, tension = loose[Strut]
    assert carried.thrust[0] == 0.0
    np.testing.assert_allclose(tension, W / 2, rtol=1e-8)
    np.testing.assert_allclose(np.abs(state.positions[2:, 1]), HALF, atol=1e-8)
    state, carried, _ = loose[Rod]
    lean = (HALF - np.abs(state.positions[2:, 1])) / -state.positions[2:, 2]
    np.testing.assert_allclose(carried.force[0], W / 2 * lean, rtol=1e-6)  # a pull
    assert carried.force[0] > 0.02 * W


@pytest.mark.parametrize("flare", [0.0, 8.0, 25.0])
def test_bar_between_side_cords_and_suspension(flare):
    """Thrust of a hammock's bar: P sin f + P cos f tan a, by the free body at its end; statics, 1e-6.

    Side cords pull with P at f degrees inwards, the suspension holds the bar's ends by a bridle of half angle
    a that meets in an apex on a line to the tree. Common practice, no source.
    """
    P, reach, f = 150.0, 0.6, np.radians(flare)
    leg = np.hypot(HALF, reach)
    leg_tension = P * np.cos(f) * leg / reach
    thrust = P * np.sin(f) + P * np.cos(f) * HALF / reach
    pulled = 2 * P * np.cos(f)
    bridle = Cable([[1, 2], [1, 3]], EA, leg / (1 + leg_tension / EA))
    tree_line = Cable([[0, 1]], EA, 1.0 / (1 + pulled / EA))
    bar = Strut([[2, 3]], EA, 2 * HALF / (1 - thrust / EA))
    positions = np.array([[-1 - reach, 0, 0], [-reach, 0, 0], [0, -HALF, 0], [0, HALF, 0]])
    forces = np.zeros((4, 3))
    forces[2:, 0] = P * np.cos(f)
    forces[2:, 1] = P * np.sin(f) * np.array([1, -1])
    fixed = np.zeros((4, 3), dtype=bool)
    fixed[0] = True
    fixed[:, 2] = True
    start = positions + [[0, 0, 0], [0.05, 0.02, 0], [0.1, 0.03, 0], [0.05, -0.02, 0]]
    state = relax(
        Structure(positions, [bridle, tree_line, bar], fixed=fixed, forces=forces), start=start, tolerance=1e-9
    )
    assert state.converged, state.message
    np.testing.assert_allclose(state[bridle].tension, leg_tension, rtol=1e-6)
    assert state[tree_line].tension[0] == pytest.approx(pulled, rel=1e-6)
    assert state[bar].thrust[0] == pytest.approx(thrust, rel=1e-6)
    np.testing.assert_allclose(state.positions, positions, atol=1e-6)


def test_bridle_running_through_its_apex_tips_over():
    """One rope running freely through the apex cannot hold a bar square: it tips until a leg is used up.

    With one tension, 150 N pulled on each end lie in line with the rope and no thrust is left (derived:
    the free ellipse has its lowest energy with the bar along the line of pull). This is why a bridle is
    tied, not threaded.
    """
    P = 150.0
    bridle = SlidingCable([2, 1, 3], EA, 1.5)
    tree_line = Cable([[0, 1]], EA, 1.0)
    bar = Strut([[2, 3]], EA, 2 * HALF)
    positions = np.array([[-1.6, 0, 0], [-0.6, 0, 0], [0, -HALF, 0], [0, HALF, 0]])
    forces = np.zeros((4, 3))
    forces[2:, 0] = P
    fixed = np.zeros((4, 3), dtype=bool)
    fixed[0] = True
    fixed[:, 2] = True
    start = positions + [[0, 0, 0], [0, 0.01, 0], [0.01, 0, 0], [0, 0, 0]]
    state = relax(Structure(positions, [bridle, tree_line, bar], fixed=fixed, forces=forces), start=start)
    assert state.reason is not Reason.STEP_LIMIT
    along = state.positions[3] - state.positions[2]
    assert abs(along[0]) > 0.99 * np.linalg.norm(along)
