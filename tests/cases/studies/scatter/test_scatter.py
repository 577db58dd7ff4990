"""All inputs of a hammock drawn at once."""

import json
from importlib.resources import files
from math import sqrt

import pytest
from click.testing import CliRunner

from tautlay.cases import find_factor_ranges, read_design, solve_case
from tautlay.cases.command import cli as command
from tautlay.cases.judging.sensitivity.range_input import MaterialInput
from tautlay.cases.storage.result_json import read_record
from tautlay.cases.studies.scatter.drawn_design import put_values
from tautlay.cases.studies.scatter.hang_input import HangInput
from tautlay.cases.studies.scatter.scatter_search import choose_inputs, find_scatter

LARCH = str(files("tautlay.cases") / "larch_ridge.toml")
SAMPLES = 32


@pytest.fixture(scope="module")
def result():
    return solve_case(read_design(LARCH), mesh_size=0.15, hot_spots=False)


@pytest.fixture(scope="module")
def ranges(result):
    return find_factor_ranges(result)


@pytest.fixture(scope="module")
def lines():
    return []


@pytest.fixture(scope="module")
def scatter(result, ranges, lines):
    return find_scatter(result, ranges, SAMPLES, progress=lines.append)


def test_nominal_values_change_nothing(result, ranges):
    design = result.design.hang_between(result.model.tree_distance)
    same = put_values(design, {source: source.value for source in choose_inputs(result, ranges)})
    distance = same.hammock.suspension.tree_distance
    assert distance == pytest.approx(result.model.tree_distance, abs=1e-12)
    assert same.hang_between(0.0).hammock == design.hang_between(0.0).hammock
    assert (same.person, same.workmanship) == (design.person, design.workmanship)


def test_every_input_is_put_where_it_belongs(result, ranges):
    design = result.design.hang_between(result.model.tree_distance)
    for source, law in choose_inputs(result, ranges).items():
        if isinstance(source, HangInput | MaterialInput):
            varied = put_values(design, {source: law.high})
            assert (varied.hammock, varied.workmanship, varied.person) != (
                design.hammock, design.workmanship, design.person,
            ), source  # fmt: skip


@pytest.mark.slow
def test_every_drawn_hammock_is_solved_and_time_left_is_told(scatter, lines):
    assert scatter.lost == ()
    assert [check.solved for check in scatter.checks] == [SAMPLES] * len(scatter.checks)
    assert any(line.startswith(f"hammock {SAMPLES} of {SAMPLES}, about ") for line in lines)


@pytest.mark.slow
def test_every_input_tells_its_law_and_source(scatter):
    assert len(scatter.inputs) > 15
    assert all("judgement" in each.source for each in scatter.inputs)
    assert all(each.low.value < each.high.value for each in scatter.inputs)


@pytest.mark.slow
def test_bands_chances_and_counts_fit_together(scatter):
    for check in scatter.checks:
        assert check.low < check.middle < check.high
        assert check.break_chance <= check.short_chance
        error = sqrt(max(check.short_chance, 0.01) * (1 - check.short_chance) / check.solved)
        assert check.short_count / check.solved == pytest.approx(check.short_chance, abs=2.5 * error)
        assert check.explained > 0.9


@pytest.mark.slow
def test_a_lower_end_that_is_taken_lies_low_in_the_band(scatter, ranges):
    """The splice's share of 0.6 is the least of 0.6 to 0.8, so that most hammocks have more than the factor found."""
    (leg,) = (check for check in scatter.checks if check.part == "left head leg")
    (band,) = (band for band in ranges.ranges if band.check.part == leg.part)
    assert leg.middle > band.check.found
    assert leg.inputs[0].input == "adjustable splice, share kept"


@pytest.mark.slow
def test_indices_add_up_where_effects_multiply(scatter):
    """The factor is a product, its logarithm a sum: first indices add up to 1 and equal the totals."""
    for check in scatter.checks:
        assert sum(share.first for share in check.inputs) == pytest.approx(1.0, abs=0.06)
        for share in check.inputs:
            assert share.total == pytest.approx(share.first, abs=0.04)


@pytest.mark.slow
def test_strengths_move_no_measure(scatter):
    names = {share.input for each in scatter.measures for share in each.inputs}
    assert not any("breaking" in name or "share kept" in name for name in names)
    (height,) = (each for each in scatter.measures if each.title == "height of the lowest point")
    assert height.low.value < height.nominal.value < height.high.value
    assert {"hang angle", "head strap height"} <= {share.input for share in height.inputs}


def test_too_few_are_refused(result, ranges):
    with pytest.raises(ValueError, match="16 or more"):
        find_scatter(result, ranges, 15)


def run(*arguments):
    return CliRunner().invoke(command.main, [str(each) for each in arguments])


@pytest.mark.slow
def test_command_tells_chances_and_keeps_them(tmp_path):
    options = ("--mesh-size", "15 cm", "--no-picture", "--how-sure", "--samples", "16")
    outcome = run("solve", LARCH, "-o", tmp_path / "out", *options)
    assert outcome.exit_code == 0, outcome.output
    assert all(len(line) <= 80 for line in outcome.stdout.splitlines() if str(tmp_path) not in line)
    text = " ".join(outcome.stdout.split())
    assert "16 hammocks solved" in text
    assert "such hammocks, sewn and hung this well" in text
    assert "No chance says that a hammock is safe." in text
    kept = json.loads((tmp_path / "out" / "result.json").read_text(encoding="utf-8"))["how_sure"]["scatter"]
    assert {each["solved"] for each in kept["checks"]} == {16}
    page = (tmp_path / "out" / "report.html").read_text(encoding="utf-8")
    assert page.count("such hammocks, sewn and hung this well") == len(kept["checks"])
    assert read_record(tmp_path / "out" / "result.json").how_sure.scatter.checks[0].solved == 16


def test_samples_without_how_sure_are_bad_usage(tmp_path):
    outcome = run("solve", LARCH, "-o", tmp_path / "out", "--samples", "16")
    assert outcome.exit_code == 2
    assert "Add --how-sure" in outcome.output
