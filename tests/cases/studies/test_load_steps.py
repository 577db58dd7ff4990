"""Equilibria under parts of the weight, and the files they are kept in."""

import json
from importlib.resources import files

import numpy as np
import pytest

from tautlay.cases import read_design, read_shape, solve_case
from tautlay.cases.storage.result_folder import check_folder
from tautlay.cases.storage.shape import LINES
from tautlay.cases.studies import load_steps
from tautlay.solver import relax

GRAVITY = 9.80665  # m/s2, NIST SP 811


@pytest.fixture(scope="module")
def design():
    return read_design(str(files("tautlay.cases") / "larch_ridge.toml"))


@pytest.fixture(scope="module")
def result(design):
    return solve_case(design, load="lying", mesh_size=0.1, hot_spots=False, load_steps=2)


def test_trees_carry_the_part_of_the_weight(result):
    """Vertical equilibrium: the trees carry the hammock and the share of the person, and nothing else."""
    assert [step.share for step in result.load_steps.found] == [0.0, 0.5]
    assert result.load_steps.missing == ()
    weight = result.design.person.mass * GRAVITY
    own = -result.state.reactions[:, 2].sum() + weight
    for step in result.load_steps.found:
        assert step.state.converged
        assert step.model.tree_distance == pytest.approx(result.model.tree_distance, rel=1e-12)
        carried = step.state.reactions[:, 2].sum()
        assert carried == pytest.approx(step.share * weight - own, abs=2e-5 * weight)


def test_more_weight_pulls_harder_and_hangs_lower(result, tmp_path):
    result.save(tmp_path)
    listed = json.loads((tmp_path / "result.json").read_text(encoding="utf-8"))["load_steps"]
    assert [(row["share_of_weight"], row["file"]) for row in listed] == [
        (0.0, "load_step_0.vtu"),
        (0.5, "load_step_1.vtu"),
    ]
    shapes = [read_shape(tmp_path / name) for name in ("load_step_0.vtu", "load_step_1.vtu", "shape.vtu")]
    pulls = [shape.force[np.isin(shape.part, LINES)].min() for shape in shapes]
    lows = [shape.points[shape.triangles, 2].min() for shape in shapes]
    assert pulls == sorted(pulls)
    assert lows == sorted(lows, reverse=True)
    assert [shape.occupant is None for shape in shapes] == [True, False, False]
    assert all(np.array_equal(shape.triangles, shapes[-1].triangles) for shape in shapes)
    assert all(np.array_equal(shape.segments, shapes[-1].segments) for shape in shapes)
    assert all(np.array_equal(shape.flat, shapes[-1].flat) for shape in shapes)
    check_folder(tmp_path)  # may be replaced by the next result


def test_shares_of_the_strength_are_the_pull_on_each_thread(result, tmp_path):
    """The force on a cut of 1 m square to a thread, F S t (first Piola-Kirchhoff), over the strength of the cloth.

    Wet nylon keeps 85 % of its strength (the program's own factor, told with the checks).
    """
    result.save(tmp_path)
    shape, body = read_shape(tmp_path / "shape.vtu"), result.design.hammock.body
    pk2 = result.state[result.model.elements["body"]].pk2
    for row in np.linspace(0, len(pk2) - 1, 25).astype(int):
        flat, loaded = (np.diff(place[shape.triangles[row]], axis=0) for place in (shape.flat, shape.points))
        F = np.linalg.lstsq(flat, loaded, rcond=None)[0].T
        pulls = F @ [[pk2[row, 0], pk2[row, 2]], [pk2[row, 2], pk2[row, 1]]]
        assert shape.warp_share[row] * 0.85 * body.fabric.strength_warp == pytest.approx(np.linalg.norm(pulls[:, 0]))
        assert shape.weft_share[row] * 0.85 * body.fabric.strength_weft == pytest.approx(np.linalg.norm(pulls[:, 1]))
    assert (body.grain, body.layers, shape.weft_share.max() > 0.02) == (0.0, 1, True)


def test_a_part_without_equilibrium_is_named(design, monkeypatch):
    calls = []

    def stop_early(structure, **options):
        calls.append(1)
        return relax(structure, **options | ({"max_iterations": 1} if len(calls) == 1 else {}))

    monkeypatch.setattr(load_steps, "relax", stop_early)
    found = solve_case(design, mesh_size=0.15, hot_spots=False, load_steps=2)
    assert [step.share for step in found.load_steps.found] == [0.0]
    assert "No equilibrium was found under 50% of the weight." in found.summary["notes"]


@pytest.mark.parametrize("count", [-1, 21])
def test_number_of_load_steps_has_limits(design, count):
    with pytest.raises(ValueError, match=f"load_steps = {count} must be between 0 and 20"):
        solve_case(design, load_steps=count)
