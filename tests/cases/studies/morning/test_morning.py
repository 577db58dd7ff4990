"""How a hammock hangs in the morning."""

import dataclasses
from importlib.resources import files

import pytest
from click.testing import CliRunner

from tautlay.cases import find_morning, read_design
from tautlay.cases.command import cli as command
from tautlay.cases.judging.clearance import MARGIN
from tautlay.cases.solving.solution import solve_equilibrium
from tautlay.cases.studies.morning import morning
from tautlay.cases.studies.morning.morning import write_advice
from tautlay.hammock.suspension_line import compose_line
from tautlay.making import Weather
from tautlay.making.creep import find_creep, find_fibre
from tautlay.making.weathering import weather_material

LARCH = str(files("tautlay.cases") / "larch_ridge.toml")
NIGHT = Weather(after=8 * 3600.0)


def hang(lower: float = 0.0):
    """Larch on a coarse mesh, both straps hung lower."""
    design = dataclasses.replace(read_design(LARCH), mesh_size=0.08)
    hung = design.hammock.suspension
    ends = {
        name: dataclasses.replace(getattr(hung, name), strap_height=getattr(hung, name).strap_height - lower)
        for name in ("head", "foot")
    }
    return design.hang(dataclasses.replace(hung, **ends))


@pytest.fixture(scope="module")
def found():
    return find_morning(hang(), NIGHT)


def test_after_no_time_and_dry_nothing_is_solved_again():
    still = find_morning(hang(), Weather())
    assert still.morning is still.evening
    assert still.worst is still.evening
    assert (still.drop, still.most, still.unknown, still.lost) == (0.0, 0.0, (), ())
    assert write_advice(still) == "It hangs as high as in the evening."


def test_after_a_night_it_hangs_lower_between_the_same_trees_and_steeper(found):
    assert 0.002 < found.drop < found.most < 0.05
    assert found.morning.model.tree_distance == found.evening.model.tree_distance
    assert found.morning.shape.hang_angle > found.evening.shape.hang_angle
    assert found.morning.forces.head_line < found.evening.forces.head_line
    assert found.lost == ()


def test_lines_that_are_softer_hang_it_as_low_as_lines_grown_by_the_creep_of_their_own_tension(found):
    """Only the lines creep: once by their stiffness, once cut longer by what creeps under the tension that is found."""
    evening = found.evening
    design = evening.design.hang_between(evening.model.tree_distance)
    hung, fibres = design.hammock.suspension, evening.design.library
    softer, longer = {}, {}
    for name in ("head", "foot"):
        end, pull = getattr(hung, name), found.morning.forces.pick_line(name)
        fibre = find_fibre(end.line, fibres)
        softer[name] = dataclasses.replace(end, line=weather_material(end.line, fibre, NIGHT).material)
        cord = compose_line(end).cord
        more = cord * find_creep(fibre, pull / end.line.breaking_load, NIGHT)
        longer[name] = dataclasses.replace(end, line_length=end.line_length + more)
    heights = [
        solve_equilibrium(design.hang(dataclasses.replace(hung, **ends)), start=evening).shape.ground_clearance
        for ends in (softer, longer)
    ]
    before = evening.shape.ground_clearance
    assert before - heights[0] > 0.001
    assert before - heights[0] == pytest.approx(before - heights[1], rel=0.05)


def test_raising_both_straps_by_the_drop_puts_it_back(found):
    night = found.morning.design
    hung = night.hammock.suspension
    raised = {
        name: dataclasses.replace(getattr(hung, name), strap_height=getattr(hung, name).strap_height + found.drop)
        for name in ("head", "foot")
    }
    back = solve_equilibrium(night.hang(dataclasses.replace(hung, **raised)), start=found.morning)
    assert back.shape.ground_clearance == pytest.approx(found.evening.shape.ground_clearance, abs=1e-4)


@pytest.mark.slow
def test_one_that_clears_the_ground_in_the_evening_and_not_in_the_morning_is_noted(found, monkeypatch):
    room = found.evening.shape.ground_clearance - MARGIN
    low = find_morning(hang(room - found.drop / 2), NIGHT)
    assert low.sinks
    assert low.may_sink
    assert write_advice(low).startswith("In the evening it clears the ground, in the morning it does not: ")
    monkeypatch.setattr("tautlay.cases.studies.morning.morning.find_morning", lambda *_, **__: low)
    outcome = CliRunner().invoke(command.main, ["morning", LARCH, "--quiet", "--strict"])
    assert outcome.exit_code == 1
    assert "in the morning it does not" in " ".join(outcome.output.split())
    barely = find_morning(hang(room - (found.drop + found.most) / 2), NIGHT)
    assert (barely.sinks, barely.may_sink) == (False, True)
    assert "in the morning it may not" in write_advice(barely)


def test_cords_loaded_beyond_what_creep_is_known_for_are_named(found, monkeypatch):
    assert found.unknown == ()
    monkeypatch.setattr(morning, "HIGHEST_SHARE", 0.10)
    assert {(each.what, each.material) for each in morning._list_overloaded(found.morning)} == {
        ("creep above 30 % of its breaking load, taken as proportional", "polyester 1 in, 25 g/m")
    }


@pytest.mark.slow
def test_soaked_it_is_heavier_and_what_is_not_known_is_named(monkeypatch):
    design = hang()
    dry = dataclasses.replace(design.workmanship.reductions, wet=False)
    design = dataclasses.replace(design, workmanship=dataclasses.replace(design.workmanship, reductions=dry))
    wet = find_morning(design, Weather(after=8 * 3600.0, wet=True, temperature=5.0))
    assert wet.morning.design.workmanship.reductions.wet
    monkeypatch.setattr("tautlay.cases.studies.morning.morning.find_morning", lambda *_, **__: wet)
    outcome = CliRunner().invoke(command.main, ["morning", LARCH, "--wet", "--at", "41 degF", "-q", "--units", "both"])
    assert outcome.exit_code == 0
    assert max(map(len, outcome.output.splitlines())) <= 80
    text = " ".join(outcome.output.split())
    assert "after 8.0 h under load, soaked, 5 degC" in text
    assert "weight of the hammock 408 g" in text
    assert "NOT KNOWN: creep when wet, taken as dry: ripstop nylon 37 g/m2." in text
    assert "NOT KNOWN: stiffness and strength at this temperature, taken as at 20 degC: ripstop" in text


@pytest.mark.parametrize(
    ("option", "value", "words"),
    [
        ("--after", "8", "needs a unit"),
        ("--after", "-1 h", "must not be negative"),
        ("--after", "1e300 h", "520 weeks at most"),
        ("--at", "5 C", "unknown unit"),
        ("--at", "60 degC", "between -20 and 40 degC"),
    ],
)
def test_what_cannot_be_read_is_told(option, value, words):
    outcome = CliRunner().invoke(command.main, ["morning", LARCH, option, value])
    assert outcome.exit_code == 2
    assert words in " ".join(outcome.output.split())
