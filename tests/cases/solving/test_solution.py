"""Solving a design from its file to the numbers and files that are kept."""

import dataclasses
import json
import math
from pathlib import Path

import meshio
import numpy as np
import pytest

from tautlay.cases import NoEquilibriumError, read_design, read_shape, solve_case
from tautlay.cases.storage.gather_shape import gather_shape
from tautlay.cases.storage.shape import CellTag
from tautlay.hammock import Arms, Attachment, LyingSide, Person, Posture, Sex, find_percentile
from tautlay.meshing import find_angle_issue
from tautlay.meshing.hang_angle_limits import estimate_distances, find_angle_limits

CASES = Path(__file__).parents[3] / "cases"
GRAVITY = 9.80665  # m/s2, NIST SP 811


@pytest.fixture(scope="module")
def design():
    return read_design(CASES / "larch_ridge.toml")


@pytest.fixture(scope="module")
def result(design):
    return solve_case(design, mesh_size=0.1, hot_spots=False)


def change_suspension(design, **changes):
    suspension = dataclasses.replace(design.hammock.suspension, **changes)
    return dataclasses.replace(design, hammock=dataclasses.replace(design.hammock, suspension=suspension))


@pytest.mark.parametrize("degrees", [22, 30, 40])
def test_loaded_lines_stand_at_the_hang_angle_asked_for(design, degrees):
    found = solve_case(change_suspension(design, hang_angle=math.radians(degrees)), mesh_size=0.15, hot_spots=False)
    shape = found.summary["shape"]
    mean = (shape["head_line_angle_rad"] + shape["foot_line_angle_rad"]) / 2
    assert math.degrees(mean) == pytest.approx(degrees, abs=0.05)


def test_steeper_hang_angle_lowers_line_tension(design):
    """Common practice, no source."""
    flat, steep = (
        solve_case(change_suspension(design, hang_angle=math.radians(angle)), mesh_size=0.15, hot_spots=False)
        for angle in (25, 40)
    )
    assert steep.summary["forces"]["head_line_N"] < flat.summary["forces"]["head_line_N"]


def test_cloth_beyond_a_set_in_bar_is_part_of_the_shape(design):
    """Half-way between its far corners it lies as far from the bar as that is set in, measured from bar to apex."""
    bar = dataclasses.replace(design.hammock.head_bar, set_in=0.12)
    hammock = dataclasses.replace(design.hammock, head_bar=bar)
    found = solve_case(dataclasses.replace(design, hammock=hammock), mesh_size=0.15, hot_spots=False)
    shape = gather_shape(found.model, found.state, found.design.workmanship.reductions)
    assert (shape.sheet == CellTag.HEAD_EXTENSION).any()
    assert not (shape.sheet == CellTag.FOOT_EXTENSION).any()
    nodes, places = found.model.nodes, found.state.positions
    ends = places[nodes["head far edge"][[0, -1]]]
    corners = np.concatenate([places[nodes[f"head {side} corner"]] for side in ("left", "right")])
    away = np.linalg.norm(ends.mean(0) - corners.mean(0))
    assert away == pytest.approx(0.12, rel=0.01)  # legs and bar stretch by less


def test_person_in_contact_is_part_of_the_shape(design, tmp_path):
    """Every capsule where the solver left it; the pressures on all triangles carry the weight."""
    found = solve_case(design, load="lying", mesh_size=0.1, hot_spots=False)
    found.save(tmp_path)
    shape, frame = read_shape(tmp_path / "shape.vtu"), found.model.frame
    assert [CellTag(part).title for part in shape.occupant.part] == list(frame.flesh)
    body = np.array([found.state.positions[found.model.nodes[f"person {name}"][0]] for name in frame.names])
    assert np.array_equal(shape.occupant.axes, body[frame.capsules])
    assert np.array_equal(shape.occupant.radii, frame.radii)
    assert len(shape.points) == len(found.state.positions) - len(frame.names)
    edges = np.diff(shape.points[shape.triangles], axis=1)
    normal = np.cross(edges[:, 0], edges[:, 1]) / 2
    force = (shape.occupant.pressure[:, None] * normal).sum(axis=0)
    assert force[2] == pytest.approx(design.person.mass * GRAVITY, rel=0.05)  # capsules are not quite as the cloth lies


def test_tree_distance_given_is_kept(design):
    found = solve_case(change_suspension(design, hang_angle=None, tree_distance=4.2), mesh_size=0.15, hot_spots=False)
    trees = [found.state.positions[found.model.nodes[f"{end} tree"][0], 0] for end in ("head", "foot")]
    assert trees[1] - trees[0] == pytest.approx(4.2, abs=1e-12)
    assert found.summary["shape"]["tree_distance_m"] == pytest.approx(4.2, abs=1e-12)


@pytest.mark.slow
@pytest.mark.parametrize("percentiles", [(5, 95), (95, 5)])
def test_second_person_takes_fewer_steps_from_the_first_ones_shape(design, percentiles):
    """A small and a large woman between the same trees, both ways round: all forces as cold, 1e-6, in fewer steps.

    On a mesh without a fine rim; with one, persons so different save no steps.
    """
    fixed = change_suspension(design, hang_angle=None, tree_distance=4.27)
    first, second = (
        dataclasses.replace(fixed, person=Person(*find_percentile(Sex.FEMALE, each), Sex.FEMALE, 0.15))
        for each in percentiles
    )
    start = solve_case(first, load="lying", mesh_size=0.07, hot_spots=False)
    cold, warm = (
        solve_case(second, load="lying", mesh_size=0.07, hot_spots=False, start=each) for each in (None, start)
    )
    for name, force in cold.summary["forces"].items():
        assert warm.summary["forces"][name] == pytest.approx(force, rel=1e-6), name
    assert warm.iterations < cold.iterations


@pytest.mark.slow
def test_shoulder_underneath_does_not_slip_through_a_coarse_mesh():
    """A small man on his side, whose shoulder is thinner than the triangles: on the cloth, which carries his weight."""
    person = Person(*find_percentile(Sex.MALE, 9), Sex.MALE, 0.2, Posture(lie=LyingSide.SIDE, arms=Arms.FOLDED))
    side = dataclasses.replace(read_design(CASES / "starter.toml"), person=person)
    found = solve_case(side, load="lying", mesh_size=0.08, hot_spots=False)
    contact = found.model.elements["contact"]
    assert not contact.find_pierced(found.state.positions).any()
    rubbed = found.state[found.model.elements["friction"]].force[:, 2].sum()
    assert rubbed - found.state[contact].force[2] == pytest.approx(person.mass * GRAVITY, rel=1e-4)
    assert (found.state[contact].depth < found.model.frame.radii.min(axis=1)).all()


def test_forces_converge_with_the_mesh(design):
    """Side cord, lines and bars at half the mesh size move by less than a per cent."""
    coarse, fine = (solve_case(design, mesh_size=size, hot_spots=False).summary["forces"] for size in (0.08, 0.04))
    for name, force in fine.items():
        assert coarse[name] == pytest.approx(force, rel=0.01), name


def test_summary_is_plain_numbers_that_agree_with_statics(result):
    summary = json.loads(json.dumps(result.summary, allow_nan=False))
    weight = (summary["weights"]["person_kg"] + summary["weights"]["hammock_kg"]) * GRAVITY
    pull = np.sum([summary["anchors"][f"{end}_tree_N"] for end in ("head", "foot")], axis=0)
    assert pull[2] == pytest.approx(-weight, rel=1e-6)
    assert np.abs(pull[:2]).max() < 1e-6 * weight
    assert sum(summary["fabric"][f"{kind}_fraction"] for kind in ("taut", "wrinkled", "slack")) == pytest.approx(1)


def test_saved_files_hold_what_was_found(result, tmp_path):
    result.save(tmp_path)
    assert json.loads((tmp_path / "result.json").read_text(encoding="utf-8")) == result.summary
    assert (tmp_path / "design.toml").read_text(encoding="utf-8") == result.design.text
    raw = meshio.read(tmp_path / "shape.vtu")
    assert np.array_equal(raw.points, result.state.positions)
    assert np.array_equal(raw.cells_dict["triangle"], result.model.mesh.triangles)
    shape = read_shape(tmp_path / "shape.vtu")
    cloth = result.state[result.model.elements["body"]]
    assert np.array_equal(shape.larger_stress, cloth.nominal[:, 0])
    assert np.array_equal(shape.direction, cloth.direction)
    assert np.array_equal(shape.state, cloth.kind)
    assert shape.force.min() == -max(result.summary["forces"][f"{end}_bar_thrust_N"] for end in ("head", "foot"))


def test_checks_are_kept_with_the_result(result):
    checks = {(check["part"], check["mechanism"]): check for check in result.summary["checks"]}
    cord, force = checks["left side cord", "breaks"], result.summary["forces"]["side_cord_left_max_N"]
    assert cord["demand_N"] == force
    assert cord["capacity_N"] == result.design.hammock.channel.cord.breaking_load
    assert cord["safety_factor_found"] == cord["capacity_N"] / force
    assert cord["passed"] is (cord["capacity_N"] >= cord["safety_factor_asked"] * force)
    margins = [check["safety_factor_found"] / check["safety_factor_asked"] for check in result.summary["checks"]]
    assert margins == pytest.approx(sorted(margins), rel=1e-4)


def test_progress_is_told_mesh_by_mesh(design):
    heard = []
    solve_case(design, mesh_size=0.06, progress=heard.append)
    assert [news.stage for news in heard] == sorted(news.stage for news in heard)
    assert heard[-1].stage == heard[-1].stages > 1
    assert heard[-1].step.residual <= heard[0].step.residual


def test_an_angle_no_tree_distance_gives_is_said_in_a_sentence(design):
    """So short a line that the legs alone set the angle."""
    near = change_suspension(design, hang_angle=math.radians(79))
    near = near.hang(near.hammock.suspension.change({"line_length": 0.05}))
    with pytest.raises((NoEquilibriumError, ValueError), match=r"angle|tree"):
        solve_case(near, mesh_size=0.15, hot_spots=False)


@pytest.mark.parametrize("degrees", [5, 80])
def test_an_angle_out_of_reach_ends_in_a_sentence_about_the_angle(design, degrees):
    """The side view allows these angles, the loaded shape does not."""
    with pytest.raises(NoEquilibriumError, match="hang angle"):
        solve_case(change_suspension(design, hang_angle=math.radians(degrees)), mesh_size=0.15, hot_spots=False)


@pytest.mark.parametrize("degrees", [15, 30, 45, 60])
def test_estimated_distance_of_the_trees_is_near_the_solved_one(design, degrees):
    hung = change_suspension(design, hang_angle=math.radians(degrees))
    (estimate,) = estimate_distances(hung.hammock, hung.person, np.radians([degrees]))
    found = solve_case(hung, mesh_size=0.15, hot_spots=False).summary["shape"]["tree_distance_m"]
    assert 0 < found - estimate < 0.08


def test_angles_that_a_check_refuses_cannot_be_solved_and_others_can(design):
    low, high = np.degrees(find_angle_limits(design.hammock, design.person))
    for degrees, good in ((low - 1.1, False), (low + 2, True), (high - 1, True), (high + 2.1, False)):
        hung = change_suspension(design, hang_angle=math.radians(degrees))
        assert (find_angle_issue(hung.hammock, hung.person) is None) is good
        if good:
            assert solve_case(hung, mesh_size=0.15, hot_spots=False).state.converged
        else:
            with pytest.raises(NoEquilibriumError, match="hang angle"):
                solve_case(hung, mesh_size=0.15, hot_spots=False)


def test_unknown_load_case_names_those_that_exist(design):
    with pytest.raises(ValueError, match="no load case 'swinging'; there is distributed"):
        solve_case(design, load="swinging", mesh_size=0.15, hot_spots=False)


@pytest.mark.parametrize("size", [-0.05, 0.0, 0.0005, 3.0])
def test_mesh_size_that_does_not_fit_is_refused_at_once(design, size):
    with pytest.raises(ValueError, match="mesh size"):
        solve_case(design, mesh_size=size, hot_spots=False)


def test_cloth_hung_from_its_corners_alone_is_noted(design):
    """Free between its corners and cut on the bias the cloth is pulled far beyond its elongation: a note says where."""
    hammock = design.hammock
    fabric = hammock.body.fabric
    bias = dataclasses.replace(hammock.body, grain=math.radians(45))
    channel = dataclasses.replace(hammock.channel, attachment=Attachment.FREE)
    hung = dataclasses.replace(design, hammock=dataclasses.replace(hammock, body=bias, channel=channel))
    notes = solve_case(hung, mesh_size=0.08, hot_spots=False).summary["notes"]
    found = [note for note in notes if "of the cloth stretches by" in note]
    assert len(found) == 2
    assert all("corner" in note and f"{fabric.elongation:.0%}" in note for note in found)


def test_sewn_cloth_stays_within_its_elongation(result):
    """Threads of a sewn body stretch by a few per cent, and the numbers say so."""
    fabric = result.summary["fabric"]
    assert not any("would be stretched" in note for note in result.summary["notes"])
    for thread in ("warp", "weft"):
        assert 0.0 < fabric[f"{thread}_stretch_most_m_per_m"] < 0.05


def test_highest_line_stress_is_that_of_the_cloth_as_cut(result):
    """Force across a flat cut over its length: where the cloth gathers it is below that per deformed width."""
    cloth = result.state[result.model.elements["body"]]
    highest = result.summary["fabric"]["highest_line_stress_N_per_m"]
    assert highest == cloth.nominal.max()
    assert highest <= cloth.tension.max()
