"""How far a lying person can be pushed sideways."""

import dataclasses
import math
from importlib.resources import files
from pathlib import Path

import pytest
from click.testing import CliRunner

from tautlay.cases import TipMargin, find_tip_margin, read_design
from tautlay.cases.command import cli as command
from tautlay.cases.studies.lying.tipping import RESOLUTION, make_tip_sentence
from tautlay.cases.unit_display import write_sentence

LARCH = str(files("tautlay.cases") / "larch_ridge.toml")


def hang(design, degrees):
    suspension = dataclasses.replace(design.hammock.suspension, hang_angle=math.radians(degrees))
    return dataclasses.replace(design, hammock=dataclasses.replace(design.hammock, suspension=suspension))


@pytest.fixture(scope="module")
def margins():
    design = read_design(LARCH)
    return [find_tip_margin(hang(design, degrees), mesh_size=0.1) for degrees in (30, 40)]


@pytest.mark.slow
@pytest.mark.parametrize("step", [0.013, 0.03])
def test_margin_does_not_hang_on_the_step(margins, step):
    """Each is within 5 mm of the largest push, so that two are within a centimetre of each other."""
    found = find_tip_margin(hang(read_design(LARCH), 40), mesh_size=0.1, step=step)
    assert found.shift == pytest.approx(margins[1].shift, abs=2 * RESOLUTION)
    assert found.push == pytest.approx(margins[1].push, rel=0.05)
    assert found.end == margins[1].end


@pytest.mark.slow
def test_too_flat_a_hang_has_no_margin():
    found = find_tip_margin(hang(read_design(LARCH), 20), mesh_size=0.1)
    assert (found.shift, found.push) == (0.0, 0.0)
    assert make_tip_sentence(found).startswith(
        "on perfectly smooth cloth, at the slightest push from the centre, the person "
    )


def test_margin_is_told_with_its_resolution():
    words = make_tip_sentence(TipMargin(0.095, 88.0, 0.14, "keeps rolling"))
    assert write_sentence(words, "imperial").startswith(
        "the body can be pushed 3.74 in sideways (within 0.2 in), which takes 19.8 lbf, 14% of the weight."
    )


def test_sleeper_on_the_side_is_told_to_roll_at_once(tmp_path):
    text = Path(LARCH).read_text(encoding="utf-8").replace('\n# lie = "back"', '\nlie = "side"')
    (tmp_path / "side.toml").write_text(text.replace('size = "40 mm"', 'size = "80 mm"'), encoding="utf-8")
    outcome = CliRunner().invoke(command.main, ["tip", str(tmp_path / "side.toml")])
    assert outcome.exit_code == 3
    words = " ".join(outcome.output.split())
    assert "side.toml: The person does not stay on the side in smooth cloth" in words
    assert "There is no margin" in words


@pytest.mark.slow
def test_attachment_farther_above_the_body_makes_it_safer(margins):
    """A steeper hang brings the trees' attachment higher above the body: farther and harder to the edge.

    Statics of a suspended body; common practice, no source.
    """
    low, high = margins
    assert high.shift > low.shift
    assert high.push > 1.5 * low.push


@pytest.mark.slow
def test_margin_says_what_comes_after_it(margins):
    for margin in margins:
        assert 0.0 < margin.shift < 0.5
        assert margin.share == pytest.approx(margin.push / (64.0 * 9.80665), rel=1e-3)
        assert any(word in margin.end for word in ("keeps rolling", "hangs out", "rolled out", "finds no equilibrium"))


@pytest.mark.slow
def test_command_tells_the_margin():
    outcome = CliRunner().invoke(command.main, ["tip", LARCH, "--quiet"])
    assert outcome.exit_code == 0, outcome.output
    assert "sideways (within 5 mm (0.2 in))" in " ".join(outcome.output.split())
