"""How far a lying person can be pushed sideways."""

import dataclasses
import math
from importlib.resources import files

import pytest
from click.testing import CliRunner

from tautlay.cases import command, find_tip_margin, read_design

LARCH = str(files("tautlay.cases") / "larch_ridge.toml")


def hang(design, degrees):
    suspension = dataclasses.replace(design.hammock.suspension, hang_angle=math.radians(degrees))
    return dataclasses.replace(design, hammock=dataclasses.replace(design.hammock, suspension=suspension))


@pytest.fixture(scope="module")
def margins():
    design = read_design(LARCH)
    return [find_tip_margin(hang(design, degrees), mesh_size=0.12) for degrees in (30, 40)]


def test_attachment_farther_above_the_body_makes_it_safer(margins):
    """A steeper hang brings the trees' attachment higher above the body: farther and harder to the edge.

    Statics of a suspended body; common practice, no source.
    """
    low, high = margins
    assert high.shift > low.shift
    assert high.push > 1.5 * low.push


def test_margin_says_what_comes_after_it(margins):
    for margin in margins:
        assert 0.0 < margin.shift < 0.5
        assert margin.share == pytest.approx(margin.push / (64.0 * 9.80665), rel=1e-3)
        assert any(word in margin.end for word in ("rolls on", "hangs out", "rolled out", "finds no rest"))


@pytest.mark.slow
def test_command_tells_the_margin():
    outcome = CliRunner().invoke(command.main, ["tip", LARCH, "--quiet"])
    assert outcome.exit_code == 0, outcome.output
    assert "of the weight" in outcome.output
