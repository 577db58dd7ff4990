"""Two routes to the same equilibrium: the explicit and the implicit gear share no step, only the elements."""

import dataclasses

import numpy as np
import pytest

from tautlay.hammock import Attachment
from tautlay.meshing import build_model
from tautlay.solver import Cable, FabricLaw, Membrane, Structure, relax

from .conftest import Solved, solve

SAME = 1e-3


def assert_same_forces(one, other):
    assert one.keys() == other.keys()
    scale = max(one.values())
    for name, force in one.items():
        assert other[name] == pytest.approx(force, rel=SAME, abs=1e-6 * scale), name


def test_gears_agree_on_the_demo(design, demo):
    explicit = solve(demo.model, gear="explicit")
    assert_same_forces(demo.forces(), explicit.forces())


@pytest.mark.slow
def test_gears_agree_from_a_start_where_everything_is_slack(design, demo):
    """All lengths shrunk by a tenth about the middle, trees in place: cloth and cords are slack, bars squeezed."""
    structure = demo.model.structure
    centre = structure.positions[: len(demo.model.mesh.points)].mean(axis=0)
    start = centre + 0.9 * (structure.positions - centre)
    body = demo.model.elements["body"].result(start)
    assert (body.kind == 0).mean() > 0.9
    for gear in ("implicit", "explicit"):
        found = Solved(demo.model, relax(structure, start=start, gear=gear))
        assert found.state.converged
        assert_same_forces(demo.forces(), found.forces())


def make_slack_sheet():
    """A sheet 2 m x 1.2 m held at one end and pulled along and down at 0.8 m; what lies beyond is bunched and slack."""
    nx, ny, pulled = 20, 12, 8
    x, y = np.meshgrid(np.linspace(0, 2, nx + 1), np.linspace(-0.6, 0.6, ny + 1), indexing="ij")
    flat = np.stack([x, y], axis=-1).reshape(-1, 2)
    number = np.arange(len(flat)).reshape(nx + 1, ny + 1)
    a, b, c, d = number[:-1, :-1], number[1:, :-1], number[1:, 1:], number[:-1, 1:]
    triangles = np.concatenate([np.stack(t, axis=-1).reshape(-1, 3) for t in ((a, b, c), (a, c, d))])
    positions = np.column_stack(
        [np.minimum(x, 0.8).ravel() + 0.7 * np.maximum(x - 0.8, 0).ravel(), 0.95 * flat[:, 1], 0 * flat[:, 0]]
    )
    sheet = Membrane(triangles, flat[triangles], FabricLaw(30e3, 25e3, 0.15, 100.0))
    fixed = np.zeros(len(flat), dtype=bool)
    fixed[number[0]] = True
    forces = np.zeros((len(flat), 3))
    forces[number[pulled]] = [40.0, 0.0, -15.0]
    return Structure(positions, [sheet], fixed=fixed, forces=forces), sheet


def test_gears_agree_where_more_than_half_the_cloth_is_slack():
    structure, sheet = make_slack_sheet()
    implicit = relax(structure, gear="implicit", tolerance=1e-7)
    explicit = relax(structure, gear="explicit")
    assert implicit.converged
    assert explicit.converged
    for state in (implicit, explicit):
        carried = state[sheet].tension[:, 0]
        assert (carried < 1e-6 * carried.max()).mean() > 0.5  # slack, or only just not
    assert np.abs(implicit.reactions - explicit.reactions).max() < SAME * np.abs(implicit.reactions).max()
    assert np.abs(implicit[sheet].tension - explicit[sheet].tension).max() < SAME * implicit[sheet].tension.max()


@pytest.mark.slow
@pytest.mark.parametrize("attachment", [Attachment.FREE, Attachment.LOCKED])
def test_gears_agree_with_a_cord_that_slides_in_its_channel(design, attachment):
    channel = dataclasses.replace(design.hammock.channel, attachment=attachment, lock_length=0.3)
    hammock = dataclasses.replace(design.hammock, channel=channel)
    model = build_model(hammock, design.person, 0.12)
    implicit, explicit = solve(model, gear="implicit"), solve(model, gear="explicit")
    lines = [name for name in implicit.forces() if "gather" not in name]
    one, other = implicit.forces(), explicit.forces()
    assert_same_forces({name: one[name] for name in lines}, {name: other[name] for name in lines})


@pytest.mark.filterwarnings("ignore:overflow|divide|invalid:RuntimeWarning")
@pytest.mark.parametrize("rest_length", [1e-300, 1e-320])
@pytest.mark.parametrize("gear", ["implicit", "explicit", "auto"])
def test_nothing_that_overflows_is_called_converged(gear, rest_length):
    """A cable stretched from nothing: whatever its forces do, its energy is no number."""
    cable = Cable([[0, 1], [1, 2]], ea=1e4, rest_length=rest_length)
    structure = Structure(
        [[0, 0, 0], [1, 0, 0], [2, 0, 0]],
        [cable],
        fixed=[True, False, True],
        forces=[[0, 0, 0], [0, 0, -1.0], [0, 0, 0]],
    )
    state = relax(structure, gear=gear, max_iterations=None if gear == "auto" else 50)
    assert not state.converged
