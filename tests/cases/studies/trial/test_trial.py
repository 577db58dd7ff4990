"""The plan of a trial: balance, ranges, words, files."""

import json
from dataclasses import replace
from importlib.resources import files

import numpy as np
import pytest
from click.testing import CliRunner

from tautlay.cases import read_design
from tautlay.cases.command.cli import main
from tautlay.cases.studies.trial import trial_plan
from tautlay.cases.studies.trial.reading import READINGS, find_pull
from tautlay.cases.studies.trial.trial_inputs import list_laws
from tautlay.cases.studies.trial.trial_plan import PULL, find_aside, make_trial_plan
from tautlay.cases.studies.trial.trial_solver import TrialSolver
from tautlay.cases.studies.trial.trial_words import list_trial_cautions
from tautlay.hammock.suspension_line import compose_line
from tautlay.solver import Cable, Structure, relax
from tautlay.viewer.trial_page import compose_trial_page

LARCH = files("tautlay.cases") / "larch_ridge.toml"
COARSE = 0.15  # m


@pytest.fixture(scope="module")
def plan():
    """Return a plan with three inputs that scatter; all of them are solved in the slow tests of the fit."""

    def list_few(design, layout):
        few = ("shear stiffness", "stiffness, polyester", "head leg length")
        return {each: law for each, law in list_laws(design, layout).items() if str(each.title).startswith(few)}

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(trial_plan, "list_laws", list_few)
        return make_trial_plan(read_design(LARCH), mesh_size=COARSE, fine=0.12)


def pick(plan, key):
    """Return a reading by rising water."""
    return [next(each for each in step.readings if each.key == key) for step in plan.steps]


def test_lines_carry_the_water():
    solver = TrialSolver(read_design(LARCH), COARSE)
    model, state = solver.solve_base(40.0)
    vertical = -state.reactions[[int(model.nodes[f"{end} tree"][0]) for end in ("head", "foot")], 2].sum()
    assert abs(vertical) == pytest.approx((40.0 + model.mass) * 9.80665, rel=1e-4)


def test_more_water_hangs_lower_and_pulls_harder(plan):
    assert [step.water for step in plan.steps] == [20.0, 40.0, 60.0, 140.0]
    assert [step.bags for step in plan.steps] == [1, 2, 3, 7]
    heights = [each.expected.value for each in pick(plan, "middle")]
    tensions = [each.expected.value for each in pick(plan, "head_line")]
    assert heights == sorted(heights, reverse=True)
    assert tensions == sorted(tensions)
    assert tensions[2] == pytest.approx(3 * tensions[0], rel=0.03)


def test_expected_value_lies_within_its_range(plan):
    for step in plan.steps:
        assert [each.key for each in step.readings] == list(READINGS)
        for each in step.readings:
            assert each.low.value < each.expected.value < each.high.value
            assert (each.aside is None) == (each.expected.unit == "m")
            assert len(each.decided_by) == 2


def test_left_and_right_are_alike(plan):
    for left, right in zip(pick(plan, "left_edge"), pick(plan, "right_edge"), strict=True):
        assert left.expected.value == pytest.approx(right.expected.value, abs=1e-5)


@pytest.mark.parametrize("tension", [200.0, 600.0, 1300.0])
def test_pull_aside_is_that_of_a_solved_line(tension):
    """A line of two pieces, pulled square to its middle; its ends held where it has that tension before."""
    ea, span = 41e3, 0.8
    line = Cable([[0, 1], [1, 2]], ea=ea, rest_length=span / (1 + tension / ea) / 2)
    points, held = [[0, 0, 0], [span / 2, 0, 0], [span, 0, 0]], [True, False, True]
    state = relax(Structure(points, [line], fixed=held, forces=[[0, 0, 0], [0, PULL, 0], [0, 0, 0]]))
    found = find_pull(state.positions[1, 1], PULL, span)
    assert found == pytest.approx(state[line].tension[0], rel=0.01)  # that under the pull


def test_length_under_tension_counts_for_what_moves_aside(plan):
    end = plan.design.hammock.suspension.head
    length = end.line_length * (1 + 600.0 / compose_line(end).ea)
    assert find_pull(find_aside(plan.design, "head_line", 600.0, PULL), PULL, length) == pytest.approx(600.0)


def test_water_outside_the_body_is_refused():
    from tautlay.hammock import example_hammock
    from tautlay.meshing import build_model
    from tautlay.meshing.bag_load import Bag, put_bags

    model = build_model(example_hammock(), None, COARSE)
    with pytest.raises(ValueError, match="outside the body"):
        put_bags(model, [Bag(1.0, 0.25, 5.0, 20.0)])


def test_moments_of_bags_are_exact():
    from tautlay.hammock import example_hammock
    from tautlay.meshing import build_model
    from tautlay.meshing.bag_load import Bag, put_bags

    model = build_model(example_hammock(), None, COARSE)
    added = put_bags(model, [Bag(0.7, 0.25, 0.4, 5.0), Bag(1.2, 0.25, 0.4, 5.0)]).structure.load - model.structure.load
    points = model.mesh.points
    weight = -added[: len(points), 2]
    assert weight.sum() == pytest.approx(10.0 * 9.80665)
    assert np.allclose(weight @ points / weight.sum(), [0.95, 0.0])


def test_page_says_everything(plan):
    page = compose_trial_page(plan)
    assert page.count("<tr") == 2 + len(READINGS)
    for words in ("before anyone lies in it", "What a difference means", "engineering judgement, no source", "proof"):
        assert words in page


def test_hammock_that_comes_down_to_the_ground_is_noted(plan):
    assert not any(words.startswith("TOO LOW") for words in list_trial_cautions(plan))
    low = replace(
        plan, steps=tuple(replace(step, ground_clearance=step.ground_clearance - 0.385) for step in plan.steps)
    )
    first, *_ = list_trial_cautions(low)
    assert first.startswith("TOO LOW: under 60.0 kg")


def test_command_writes_page_and_json(tmp_path, monkeypatch, plan):
    monkeypatch.chdir(tmp_path)
    design = tmp_path / "own.toml"
    design.write_text(LARCH.read_text(encoding="utf-8").replace('size = "40 mm"', 'size = "15 cm"'), encoding="utf-8")
    monkeypatch.setattr(trial_plan, "make_trial_plan", lambda design, **asked: plan)
    outcome = CliRunner().invoke(main, ["trial", str(design), "--json", "own.json"], catch_exceptions=False)
    assert outcome.exit_code == 0
    assert max(map(len, outcome.stdout.splitlines())) <= 80
    written = json.loads((tmp_path / "own.json").read_text(encoding="utf-8"))
    assert written["proof_water_kg"] == 140.0
    assert written["steps"][0]["readings"][0]["expected_m"] > 1.0
    assert (tmp_path / "own_trial.html").read_text(encoding="utf-8").startswith("<!doctype html>")
    again = CliRunner().invoke(main, ["trial", str(design), "--page", "own.json"], catch_exceptions=False)
    assert again.exit_code == 2
    assert "no page that tautlay wrote" in again.output
