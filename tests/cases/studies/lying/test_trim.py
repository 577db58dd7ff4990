"""Hanging a hammock so that a wish comes true."""

import dataclasses
import re
from importlib.resources import files
from math import degrees, radians
from pathlib import Path

import pytest
from click.testing import CliRunner

from tautlay.cases import NoEquilibriumError, find_trim, read_design
from tautlay.cases.command import cli as command
from tautlay.cases.command.printing.trim_table import list_changes
from tautlay.cases.studies.lying.target import TargetError, read_target
from tautlay.cases.studies.lying.varied_length import VARIED
from tautlay.cases.unit_display import show_quantity

LARCH = str(files("tautlay.cases") / "larch_ridge.toml")


@pytest.fixture(scope="module")
def design():
    return read_design(LARCH)


@pytest.mark.parametrize(
    ("text", "measure", "value"),
    [("trunk 3 deg", "trunk_pitch_rad", 3), ("legs -2.5 deg", "leg_pitch_rad", -2.5), ("no slide", "slide", 0)]
    + [
        (text, "trunk_pitch_rad", 3)
        for text in ("Trunk 3 Degrees", " trunk  3deg", "trunk pitch 3 degree", "trunk = 3.0 °")
    ]
    + [(text, "slide", 0) for text in ("No  Slide", "slide 0", "zero slide", "no sliding", "slide: none", "SLIDE 0 %")]
    + [("leg 5 deg", "leg_pitch_rad", 5)],
)
def test_wishes_are_read_however_they_are_written(text, measure, value):
    wish = read_target(text)
    assert (wish.measure, degrees(wish.value)) == (measure, pytest.approx(value))


@pytest.mark.parametrize(
    "text", ["", "trunk 3", "slide 1", "trunk three deg", "legs 400 deg", "trunk 3,5 deg", "arms 3 deg"]
)
def test_other_wishes_are_refused_with_what_is_allowed(design, text):
    with pytest.raises(TargetError, match='Write "no slide", or a tilt such as "torso 3 deg" or "legs 5 deg"'):
        find_trim(design, text)


@pytest.mark.parametrize("vary", ["foot_strap_height", "line_length"])
def test_no_slide(design, vary):
    """Solved anew with what was found, nothing has to hold the person: a thousandth of the weight."""
    found = find_trim(design, "no slide", vary=vary, mesh_size=0.1)
    assert abs(found.result.summary["comfort"]["slide"]) <= 1e-3
    assert VARIED[vary].read(found.result.design.hammock.suspension) == found.value


def test_pitch_of_the_trunk(design):
    """A lower trunk needs a lower head strap: less than before, by more than a hand's breadth."""
    found = find_trim(design, "trunk 4 deg", vary="head_strap_height", mesh_size=0.1)
    assert found.result.summary["comfort"]["trunk_pitch_rad"] == pytest.approx(radians(4), abs=radians(0.1))
    assert found.value < design.hammock.suspension.head.strap_height - 0.05


@pytest.mark.slow
def test_wish_out_of_reach_is_told_with_what_is_within(design):
    """A lower foot strap lifts the trunk: its pitch falls with the strap's height all the way."""
    with pytest.raises(NoEquilibriumError) as caught:
        find_trim(design, "trunk 60 deg", mesh_size=0.12)
    words = str(caught.value)
    assert "The foot strap height alone cannot reach 'trunk 60 deg'" in words
    least, most = (float(number) for number in re.findall(r"(-?[0-9.]+) deg \(at", words))
    assert least < 7 < most < 60
    assert "Vary another length" in words


@pytest.mark.slow
def test_search_that_leaves_what_can_hang_ends_in_a_sentence(design):
    imperial = dataclasses.replace(design, units="imperial")
    with pytest.raises(NoEquilibriumError) as caught:
        find_trim(imperial, "trunk -20 deg", vary="line_length", mesh_size=0.12)
    words = str(caught.value)
    assert "cannot be hung" in words
    assert re.search(r"[0-9] ?c?m\b", words) is None  # in the units of the report


@pytest.mark.slow
def test_wish_beyond_a_stretch_that_cannot_hang_is_found_on_the_grid(design, monkeypatch):
    """With the first steps forbidden the grid has to find the same height."""
    straight = find_trim(design, "trunk 4 deg", mesh_size=0.12)
    monkeypatch.setattr("tautlay.cases.studies.lying.trim._TrimSearch.step", lambda search: None)
    found = find_trim(design, "trunk 4 deg", mesh_size=0.12)
    assert found.value == pytest.approx(straight.value, abs=0.02)
    assert found.result.comfort.trunk_pitch == pytest.approx(radians(4), abs=radians(0.1))


def test_changes_are_those_of_both_results(design):
    found = find_trim(design, "trunk 4 deg", mesh_size=0.12)
    changes = {change.title: change for change in list_changes(found, "metric")}
    for title, name in (("head line", "head_line"), ("foot bar thrust", "foot_bar_thrust")):
        before, after = (getattr(one.forces, name) for one in (found.before, found.result))
        assert changes[title][1:] == (show_quantity(before, "force", "metric"), show_quantity(after, "force", "metric"))
    assert changes["foot strap height"].before == "180 cm"
    assert changes["torso tilt, head up"].after.startswith(("3.9", "4.0", "4.1"))
    assert changes["friction needed to stay put"].after.endswith("of weight, to head")  # its foot end was raised


@pytest.mark.parametrize("units", ["metric", "imperial", "both"])
def test_command_says_what_to_change_and_what_that_does(tmp_path, units):
    text = Path(LARCH).read_text(encoding="utf-8").replace('units = "both"', f'units = "{units}"')
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    outcome = CliRunner().invoke(command.main, ["trim", str(tmp_path / "a.toml"), "--wish", "Trunk 4 degrees"])
    assert outcome.exit_code == 0, outcome.output
    words = " ".join(outcome.output.split())
    assert "set foot_strap_height to " in words
    for title in ("before", "after", "lowest point above ground", "head line", "head bar thrust", "leg tilt"):
        assert title in words
    limit = {"metric": "183 cm", "imperial": "72.0 in", "both": "183 cm (72.0 in)"}[units]  # 6 ft
    assert (
        f"Some parks allow no strap above {limit} (Three Rivers Park District: 6 ft). The foot strap is above it."
        in words
    )
    assert max(map(len, outcome.output.splitlines())) <= 80
