"""Two cords from apex to apex with bars between them, more weight on one: the axis about which they roll together.

Closed forms, statics of flexible cables: H is the same all along a cord, y = M / H and z = V / H.
"""

from math import atan2

import numpy as np
import pytest

from tautlay.cases.judging.comfort.swing import find_roll_axis
from tautlay.solver import Cable, Structure, Strut, relax

REACH, BAR, LENGTH, PIECES = 0.5, 0.9, 2.0, 20
DROP = 0.3  # m, bars below the apexes
STIFF = 1e6  # N
WEIGHT, THRUST = 600.0, 200.0  # N


def lay(side, sag):
    """Return one cord (k, 3) from apex to apex."""
    x = np.linspace(-LENGTH / 2, LENGTH / 2, PIECES + 1)
    bowed = 1 - (2 * x / LENGTH) ** 2
    middle = np.column_stack([x, np.full_like(x, side * BAR / 2), -DROP - sag * bowed])
    ends = np.array([[-LENGTH / 2 - REACH, 0.0, 0.0], [LENGTH / 2 + REACH, 0.0, 0.0]])
    return np.concatenate([ends[:1], middle, ends[1:]])


def solve(more, sag, inwards, *, ea=STIFF, bars=False):
    """Return both chains at rest, the left one under 1 + more times half the weight, and what they have stretched.

    Bars are forces outwards, level, or struts, which tilt with what they keep apart.
    """
    places = np.concatenate([lay(1.0, sag), lay(-1.0, sag)])
    count = len(places) // 2
    nodes = np.arange(count)
    forces = np.zeros_like(places)
    corners = nodes[[1, -2]]
    for first, sign in ((0, 1.0), (count, -1.0)):
        own = first + (nodes[1:-1] if sag else corners)  # without sag the corners carry all
        share = np.full(len(own), 1 / len(own))
        forces[own, 2] = -WEIGHT / 2 * (1 + sign * more) * share
        forces[own, 1] = -sign * inwards * share
        if not bars:
            forces[first + corners, 1] += sign * (THRUST + inwards / 2)
    pairs = np.concatenate([np.stack([nodes[:-1], nodes[1:]], axis=1) + first for first in (0, count)])
    rest = np.linalg.norm(places[pairs[:, 1]] - places[pairs[:, 0]], axis=1)
    held = [Strut(np.column_stack([corners, corners + count]), STIFF, BAR)] if bars else []
    fixed = np.isin(np.arange(len(places)), [0, count - 1, count, 2 * count - 1])
    structure = Structure(places, [Cable(pairs, ea, rest), *held], fixed=fixed, forces=forces)
    state = relax(structure, tolerance=1e-8, gear="implicit", max_iterations=400)
    assert state.converged
    chains = state.positions[:count], state.positions[count:]
    longer = sum(np.linalg.norm(np.diff(chain, axis=0), axis=1).sum() for chain in chains) - rest.sum()
    return chains, float(longer)


def measure_axis(chains):
    """Return the axis above the middle that a small roll shows, m."""
    left, right = (chain[1:-1].mean(axis=0) for chain in chains)
    tilt = atan2((right - left)[2], (left - right)[1])
    return -(left + right)[1] / 2 / tilt


@pytest.mark.parametrize(("sag", "inwards"), [(0.15, 0.0), (0.25, 0.0), (0.25, 40.0)])
def test_cords_with_sag_roll_about_an_axis_below_the_apexes(sag, inwards):
    """Half the depth of the apexes and less above the cords, since bars turn about their lines."""
    even, stretched = solve(0.0, sag, inwards)
    rolled, _ = solve(0.005, sag, inwards)
    by_hand = find_roll_axis(even, stretched)
    assert measure_axis(rolled) == pytest.approx(by_hand, rel=0.005)
    assert by_hand < 0.8 * -even[0][1:-1, 2].mean()


def test_bars_that_tilt_change_it_little():
    even, stretched = solve(0.0, 0.25, 60.0, bars=True)
    rolled, _ = solve(0.005, 0.25, 60.0, bars=True)
    assert measure_axis(rolled) == pytest.approx(find_roll_axis(even, stretched), rel=0.06)


@pytest.mark.parametrize("bars", [False, True])
def test_cords_without_sag_roll_about_the_apexes_as_if_rigid(bars):
    """Each lies in one plane through both apexes, whose turning changes no length: the axis is their line."""
    even, stretched = solve(0.0, 0.0, 0.0, bars=bars)
    rolled, _ = solve(0.005, 0.0, 0.0, bars=bars)
    depth = -even[0][1:-1, 2].mean()
    assert find_roll_axis(even, stretched) == pytest.approx(depth, rel=0.005)
    assert measure_axis(rolled) == pytest.approx(depth, rel=0.005)


def test_stretch_is_part_of_it():
    even, stretched = solve(0.0, 0.25, 0.0, ea=2e4)
    rolled, _ = solve(0.005, 0.25, 0.0, ea=2e4)
    assert measure_axis(rolled) == pytest.approx(find_roll_axis(even, stretched), rel=0.005)
    assert find_roll_axis(even, stretched) < 0.97 * find_roll_axis(even, 0.0)
