"""Load between cloth and side cord: two ways to the same force, the laws of the cord, and the mesh."""

import dataclasses
from pathlib import Path

import numpy as np
import pytest

from tautlay.cases import read_design, solve_case
from tautlay.cases.judging.cloth.channel_load import find_channel_load
from tautlay.cases.judging.cloth.cord_anchoring import list_jumps
from tautlay.hammock import Attachment
from tautlay.meshing.person_load import GRAVITY

CASES = Path(__file__).parents[4] / "cases"
LOCK = 0.4


def solve_held(attachment, size=0.08, load="distributed"):
    design = read_design(CASES / "larch_ridge.toml")
    lock = LOCK if attachment is Attachment.LOCKED else 0.0
    channel = dataclasses.replace(design.hammock.channel, attachment=attachment, lock_length=lock)
    hammock = dataclasses.replace(design.hammock, channel=channel)
    return solve_case(dataclasses.replace(design, hammock=hammock), mesh_size=size, load=load, hot_spots=False)


@pytest.fixture(scope="module")
def solved():
    return {held: solve_held(held) for held in Attachment}


def find_units(result, side):
    steps = np.diff(result.state.positions[result.model.nodes[f"{side} edge"]], axis=0)
    return steps / np.linalg.norm(steps, axis=1)[:, None]


def weigh_cord(result, load):
    """Weight of the cord between the middles of its first and last piece, N."""
    cord = result.model.hammock.channel.cord
    return np.array([0.0, 0.0, -cord.linear_mass * GRAVITY * (load.bounds[-2] - load.bounds[1])])


@pytest.mark.parametrize("held", Attachment)
@pytest.mark.parametrize("side", ["left", "right"])
def test_load_along_the_channel_is_the_change_of_the_cords_tension(solved, held, side):
    """Sum of the cloth's pull on the inner nodes = tension vectors at both ends, within 1 %."""
    result = solved[held]
    load, units = find_channel_load(result.model, result.state, side), find_units(result, side)
    inner = slice(None) if held is Attachment.FREE else slice(1, -1)
    whole = (load.across[inner] + load.along[inner, None] * load.tangent[inner]) * load.widths[inner, None]
    ends = load.tension[0] * units[0] - load.tension[-1] * units[-1]
    assert np.linalg.norm(whole.sum(axis=0) + weigh_cord(result, load) - ends) < 0.01 * np.linalg.norm(ends)


@pytest.mark.parametrize("held", Attachment)
def test_both_ways_agree_at_every_node(solved, held):
    """The cloth's pull on a node is what the change of the cord's tension vector there asks for, within 1 %."""
    result = solved[held]
    load, units = find_channel_load(result.model, result.state, "left"), find_units(result, "left")
    pull = -np.diff(load.tension[:, None] * units, axis=0)  # on the inner nodes, the cord's weight aside
    force = load.force if held is Attachment.FREE else load.force[1:-1]
    assert np.linalg.norm(force - pull, axis=1).max() < 0.01 * np.linalg.norm(pull, axis=1).max()


def test_pull_of_the_cloth_on_both_cords_carries_it(solved):
    """Free body of the cloth with the sleeper: both cords and the corners lift what it weighs."""
    result = solved[Attachment.SEWN]
    loads = [find_channel_load(result.model, result.state, side) for side in ("left", "right")]
    body = result.model.hammock.body
    cloth = body.fabric.areal_mass * body.layers * result.model.mesh.find_areas().sum()
    weight = (result.design.person.mass + cloth) * GRAVITY
    total = sum(load.force.sum(axis=0) for load in loads)
    assert total[2] == pytest.approx(-weight, rel=0.01)
    assert np.abs(total[:2]).max() < 0.01 * weight


def test_cord_that_slides_is_pulled_square_to_itself(solved):
    free = solved[Attachment.FREE]
    load = find_channel_load(free.model, free.state, "left")
    across = np.linalg.norm(load.across, axis=1)
    assert np.abs(load.along).max() < 1e-3 * across.max()
    locked = solved[Attachment.LOCKED]
    load = find_channel_load(locked.model, locked.state, "left")
    sliding = (load.stations > LOCK + 0.03) & (load.stations < load.bounds[-1] - LOCK - 0.03)
    assert np.abs(load.along[sliding]).max() < 1e-3 * np.linalg.norm(load.across, axis=1).max()


@pytest.mark.parametrize("held", Attachment)
def test_pull_across_is_tension_times_curvature(solved, held):
    """Of a cord on a smooth curve; here a circle through each three nodes, away from the ends, within 2 %."""
    result = solved[held]
    load, path = find_channel_load(result.model, result.state, "left"), result.model.nodes["left edge"]
    a, b, c = (result.state.positions[path][start : len(path) - 2 + start] for start in range(3))
    area = np.linalg.norm(np.cross(b - a, c - a), axis=1) / 2
    sides = [np.linalg.norm(x - y, axis=1) for x, y in ((a, b), (b, c), (a, c))]
    curvature = 4 * area / np.prod(sides, axis=0)
    tension = (load.tension[1:] + load.tension[:-1]) / 2
    inner = slice(None) if held is Attachment.FREE else slice(1, -1)
    per_length = np.linalg.norm(load.across * load.widths[:, None], axis=1)[inner] / load.spans[inner]
    middle = slice(len(curvature) // 3, -len(curvature) // 3)
    assert per_length[middle] == pytest.approx((tension * curvature)[middle], rel=0.02)
    assert load.press().max() >= (tension * curvature)[middle].max() / load.diameter * 0.9


def test_force_on_the_lock_stitches_is_the_jump_of_the_cords_tension(solved):
    """Along a lock the stitches take tension from the cord; at the corner what is left goes to the leg."""
    result = solved[Attachment.LOCKED]
    jumps = {(jump.end, jump.side): jump for jump in list_jumps(result.model, result.state)}
    for side in ("left", "right"):
        load = find_channel_load(result.model, result.state, side)
        taken = load.along * load.widths
        # the node where the anchored length ends is the last that is sewn; the corner itself belongs to the leg
        head = load.stations[1:-1] < LOCK + 0.01
        foot = load.stations[1:-1] > load.bounds[-1] - LOCK - 0.01
        for end, here in (("head", head), ("foot", foot)):
            jump = jumps[end, side]
            held = abs(float(taken[1:-1][here].sum()))
            assert held == pytest.approx(abs(jump.channel - jump.inner), rel=0.01)
            assert jump.force == pytest.approx(held + abs(jump.leg - jump.channel), rel=0.01)


def test_what_holds_a_corner_is_the_jump_of_tension_there(solved):
    """A cord bent by an angle t over the corner asks for (T1 - T2) cos(t/2) along it from all that is fast there."""
    for result in solved.values():
        x, nodes = result.state.positions, result.model.nodes
        force = np.zeros_like(x)
        for name, element in result.model.elements.items():
            if name.endswith("bar") or name == "body" or "gather" in name:
                result.state.terms[id(element)].add_force(x, force)
        for jump in list_jumps(result.model, result.state):
            corner = nodes[f"{jump.end} {jump.side} corner"][0]
            edge = nodes[f"{jump.side} edge"]
            ways = [x[nodes[f"{jump.end} apex"][0]] - x[corner], x[edge[1 if jump.end == "head" else -2]] - x[corner]]
            leg, cord = (way / np.linalg.norm(way) for way in ways)
            along = (leg - cord) / np.linalg.norm(leg - cord)
            held = -(force[corner] + result.model.structure.load[corner]) @ along
            bend = np.sqrt((1 - leg @ cord) / 2)
            assert held == pytest.approx((jump.leg - jump.channel) * bend, rel=0.01)


@pytest.mark.slow
def test_gauge_average_settles_where_a_single_node_does_not():
    """At the end of a lock the largest load of a node along the cord keeps growing, that of 25 mm moves by under 5 %.

    Meshes whose cells along the edge, up to their size long, are not much longer than the gauge.
    """
    loads = [
        find_channel_load(r.model, r.state, "left")
        for r in (solve_held(Attachment.LOCKED, size) for size in (0.04, 0.02))
    ]
    nodes = [np.abs(load.along).max() for load in loads]
    assert nodes[1] > 1.2 * nodes[0]
    for name in ("across", "along", "whole"):
        coarse, fine = (float(np.abs(getattr(load.average(), name)).max()) for load in loads)
        assert coarse == pytest.approx(fine, rel=0.05), name


@pytest.mark.slow
@pytest.mark.parametrize("held", Attachment)
@pytest.mark.parametrize("load", ["distributed", "lying"])
def test_gauge_average_has_settled_on_fine_meshes(held, load):
    loads = [
        find_channel_load(r.model, r.state, "left") for r in (solve_held(held, size, load) for size in (0.03, 0.015))
    ]
    for name in ("across", "whole"):
        coarse, fine = (float(np.abs(getattr(each.average(), name)).max()) for each in loads)
        assert coarse == pytest.approx(fine, rel=0.05), name


def test_average_over_a_gauge_is_the_exact_largest(solved):
    """Against windows at a thousand places."""
    result = solved[Attachment.SEWN]
    load = find_channel_load(result.model, result.state, "left")
    force = np.concatenate([np.zeros(1), np.cumsum(load.along * load.widths)])
    starts = np.linspace(0.0, load.bounds[-1] - 0.1, 1000)
    shares = [np.interp(start + 0.1, load.bounds, force) - np.interp(start, load.bounds, force) for start in starts]
    most = np.abs(load.average(0.1).along).max()
    assert most >= np.abs(shares).max() / 0.1 - 1e-9
    assert most == pytest.approx(np.abs(shares).max() / 0.1, rel=0.01)
