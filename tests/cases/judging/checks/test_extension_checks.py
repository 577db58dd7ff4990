"""Cloth beyond a bar that is set in is checked: threads, seam or darts, and the stitch on the leg."""

from dataclasses import replace
from importlib.resources import files

import numpy as np
import pytest

from tautlay.cases import read_design
from tautlay.cases.judging.checks.extension_checks import check_extensions
from tautlay.cases.judging.cloth.extension_load import find_hold, find_seam_load
from tautlay.cases.solving.solution import solve_equilibrium

pytestmark = pytest.mark.slow
WHOLE = {"warp tears", "weft tears", "stitch on leg tears"}


@pytest.fixture(scope="module")
def solved():
    designs = (read_design(str(files("tautlay.cases") / f"{name}.toml")) for name in ("heron_ford", "otter_creek"))
    return [solve_equilibrium(each, load="distributed", mesh_size=0.12, hot_spots=True) for each in designs]


def test_every_way_to_fail_is_checked(solved):
    heron, otter = ({(c.part, c.mechanism) for c in check_extensions(result.case)} for result in solved)
    sewn = WHOLE | {"seam opens", "cloth tears at seam"}
    assert heron == {(f"{end} extension", each) for end in ("head", "foot") for each in sewn}
    assert otter == {("head extension", each) for each in WHOLE | {"dart opens", "cloth tears at dart"}}
    for result in solved:
        assert all(check.passed for check in check_extensions(result.case))  # it carries some grams
        assert set(check_extensions(result.case)) <= set(result.findings.checks)


def test_demand_and_capacity_are_those_of_the_formulas(solved):
    result = solved[0]
    checks = {(c.part, c.mechanism): c for c in check_extensions(result.case)}
    (head, _), work = result.model.beyond, result.design.workmanship
    seam, rows = find_seam_load(result.model, result.state, head), work.fold.seam
    opens = checks["head extension", "seam opens"]
    assert opens.demand == pytest.approx(seam.pull.max())
    length = result.design.hammock.body.head_width - 2 * 0.20
    assert opens.demand >= np.linalg.norm(seam.whole) / length  # the largest over 25 mm, not less than the mean
    assert opens.capacity.value == pytest.approx(
        result.case.workmanship.fold.seam.rows * 1.5 * rows.thread.breaking_load / rows.stitch_length, rel=0.3
    )
    stitch = checks["head extension", "stitch on leg tears"]
    assert stitch.demand == pytest.approx(
        max(find_hold(result.model, result.state, "head", s) for s in ("left", "right"))
    )


def test_what_is_not_told_is_not_checked(solved):
    case = solved[0].case
    bare = replace(case.workmanship, fold=None, lock=None)
    open_ = [each for each in check_extensions(case._replace(workmanship=bare)) if hasattr(each, "reason")]
    reasons = {each.part: each.reason for each in open_}
    assert "[channel.fold]" in reasons["head extension, seam"]
    assert "[channel.lock]" in reasons["foot extension, far corners"]
    coarse = list(check_extensions(case._replace(cloth_utilisation=None)))
    assert "too coarse" in coarse[0].reason
