"""Seams of a body in panels: the pull across them, against the same pull read off the triangles."""

from dataclasses import replace

import numpy as np
import pytest

from tautlay.cases import read_design, solve_case
from tautlay.cases.judging.cloth.nominal_stress import find_nominal
from tautlay.making import Workmanship

from ...._patterns import write_design


@pytest.fixture(scope="module")
def seamed(tmp_path_factory):
    return solve_case(read_design(write_design(tmp_path_factory.mktemp("a"), "narrow cloth")), mesh_size=0.06)


def find_body_seams(result):
    return [check for check in result.findings.checks if check.part.startswith("body seam")]


def test_every_seam_is_checked_for_stitches_and_cloth(seamed):
    found = sorted((check.part, check.mechanism) for check in find_body_seams(seamed))
    assert found == [(f"body seam 1.{n}", how) for n in (1, 2) for how in ("cloth tears at seam", "seam opens")]


def test_the_pull_is_that_of_the_weft_beside_the_seam(seamed):
    """The mean over 25 mm lies between the least and the largest pull of the triangles within 5 cm of its place."""
    model, state = seamed.model, seamed.state
    weft = np.linalg.norm(find_nominal(model, state)[:, :, 1], axis=1)
    middles = model.mesh.points[model.mesh.triangles].mean(axis=1)
    for check in find_body_seams(seamed):
        near = np.abs(np.abs(middles[:, 1]) - 0.45) < 0.12
        assert 0 < check.demand <= weft[near].max()


def test_stitches_by_hand(seamed):
    """One thread of 22.2 N a stitch or so: load of the thread times 1.5 over the stitch length, two rows."""
    seam = seamed.design.workmanship.fold.seam
    (check, *_) = [each for each in find_body_seams(seamed) if each.mechanism == "seam opens"]
    channel = next(
        each for each in seamed.findings.checks if (each.part, each.mechanism) == ("left channel", "seam opens")
    )
    assert seam.rows == 2
    assert check.capacity.value == pytest.approx(channel.capacity.value)


def test_a_body_in_one_piece_has_no_such_seam(tmp_path):
    design = read_design(write_design(tmp_path, "larch_ridge"))
    whole = solve_case(design, mesh_size=0.15, hot_spots=False)
    assert not find_body_seams(whole)
    assert not any(each.part == "seams of the body" for each in whole.findings.unchecked)


def test_what_is_not_told_is_not_checked(tmp_path):
    design = read_design(write_design(tmp_path, "narrow cloth"))
    coarse = solve_case(design, mesh_size=0.15, hot_spots=False)
    assert any(each.part == "seams of the body" for each in coarse.findings.unchecked)
    bare = Workmanship(cutting=design.workmanship.cutting)
    silent = solve_case(replace(design, workmanship=bare), mesh_size=0.15, hot_spots=False)
    assert not find_body_seams(silent)
