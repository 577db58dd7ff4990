"""Whether the head clears the head bar on sitting up."""

import dataclasses
import math
from importlib.resources import files

import pytest
from click.testing import CliRunner

from tautlay.cases import NoEquilibriumError, read_design, sit_up
from tautlay.cases.command import cli as command
from tautlay.cases.studies.lying import sitting_up
from tautlay.cases.studies.lying.sitting_up import SitStage, SittingUp, WayUp, make_sit_sentence
from tautlay.cases.unit_display import write_sentence
from tautlay.hammock import LyingSide

HERON = str(files("tautlay.cases") / "heron_ford.toml")


def lie(**posture):
    design = read_design(HERON)
    return dataclasses.replace(design, person=dataclasses.replace(design.person, **posture))


@pytest.fixture(scope="module")
def found():
    """With the crown 10 cm beyond a bar that is set in; long steps, of which those about the least are halved."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(sitting_up, "_STEP", math.radians(16.0))
        return sit_up(lie(head_from_bar=-0.1, mass=74.0), mesh_size=0.12)


@pytest.mark.slow
def test_bar_is_nearest_on_the_way_and_the_way_leads_up(found):
    """By hand: a circle about hips that stay where they lie."""
    for way in found.ways:
        assert way.end is None
        tilts = [stage.tilt for stage in way.stages]
        assert tilts == sorted(tilts)
        assert tilts[-1] > math.radians(80.0)
        assert way.least.clearance < way.stages[-1].clearance
        assert way.stages[0].moment == pytest.approx(0.0, abs=5.0)
    assert found.clears
    assert found.worst.neck == "straight"
    assert found.worst.least.clearance < found.worst.stages[0].clearance - 0.02
    limp, straight = (way.least.clearance for way in found.ways)
    by_hand = 0.831 - 0.691 - 0.088  # m: bar from hips, hips to the middle of a straight head, its radius
    assert by_hand - 0.01 < straight < by_hand + 0.05  # hips that sink take the bar farther off
    assert straight < limp


def test_words():
    lying = SitStage(0.0, math.radians(14.0), 0.144, "head", 0.0, -50.0)
    middle = SitStage(0.4, math.radians(35.0), 0.102, "head", 89.0, -1.0)
    limp, held = WayUp("limp", (lying,)), WayUp("straight", (lying, middle))
    sentence = write_sentence(make_sit_sentence(SittingUp((limp, held), 700.0)), "metric")
    assert sentence == (
        "sitting up, the head clears the head bar by 10.2 cm, closest at a torso tilt of 35 deg, neck straight; hands on the "
        "side cords give 89 N m, the seat needs friction of 7% of the weight, else it slides."
    )
    close = WayUp("straight", (lying, middle._replace(clearance=0.03)))
    assert "too near to count on" in make_sit_sentence(SittingUp((limp, close), 700.0))
    meets = SittingUp((limp, WayUp("straight", (lying, middle._replace(clearance=-0.01, part="neck")))), 700.0)
    assert not meets.clears
    assert make_sit_sentence(meets).startswith("sitting up, the neck meets the head bar at a torso tilt of 35 deg")
    lost = SittingUp((limp, WayUp("straight", (lying, middle), "rolled out over the left side")), 700.0)
    assert not lost.clears
    assert make_sit_sentence(lost).endswith("but beyond 35 deg the person rolled out over the left side.")


def test_who_lies_on_the_side_is_told_how_to_begin():
    design = lie()
    side = dataclasses.replace(design.person.posture, lie=LyingSide.SIDE)
    with pytest.raises(NoEquilibriumError, match='Write lie = "back"'):
        sit_up(dataclasses.replace(design, person=dataclasses.replace(design.person, posture=side)))


@pytest.mark.slow
def test_command_prints_the_way_and_the_answer_and_draws(monkeypatch, tmp_path, found):
    monkeypatch.setattr("tautlay.cases.studies.lying.sitting_up.sit_up", lambda *_, **__: found)
    outcome = CliRunner().invoke(
        command.main, ["sit", HERON, "--quiet", "--way", "up", "-o", str(tmp_path / "sit.png")]
    )
    assert outcome.exit_code == 0
    assert "head, nearest" in outcome.output
    assert "sitting up, the head clears the head bar by" in " ".join(outcome.output.split())
    assert (tmp_path / "sit.png").read_bytes().startswith(b"\x89PNG")
    wrong = CliRunner().invoke(command.main, ["sit", HERON, "-o", str(tmp_path / "sit.pdf")])
    assert wrong.exit_code == 2
    assert "must end in .png" in wrong.output
