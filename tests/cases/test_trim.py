"""Hanging a hammock so that a wish comes true."""

from importlib.resources import files
from math import degrees, radians

import pytest
from click.testing import CliRunner

from tautlay.cases import NoEquilibriumError, command, find_trim, read_design
from tautlay.cases.trim import WishError, read_wish

LARCH = str(files("tautlay.cases") / "larch_ridge.toml")


@pytest.fixture(scope="module")
def design():
    return read_design(LARCH)


@pytest.mark.parametrize(
    ("text", "wish"), [("trunk 3 deg", ("trunk_pitch_rad", 3)), ("legs -2.5 deg", ("leg_pitch_rad", -2.5))]
)
def test_wishes_are_read(text, wish):
    measure, value = read_wish(text)
    assert (measure, degrees(value)) == (wish[0], pytest.approx(wish[1]))


@pytest.mark.parametrize("text", ["", "trunk 3", "no  slide", "trunk three deg", "legs 400 deg"])
def test_other_wishes_are_refused_in_a_sentence(design, text):
    with pytest.raises(WishError, match='wish "no slide"'):
        find_trim(design, text)


@pytest.mark.parametrize("vary", ["foot_strap_height", "line_length"])
def test_no_slide(design, vary):
    """Solved anew with what was found, nothing has to hold the person: a thousandth of the weight."""
    found = find_trim(design, "no slide", vary=vary, mesh_size=0.1)
    assert abs(found.result.summary["comfort"]["slide"]) <= 1e-3
    assert getattr(found.result.design.hammock.suspension, vary) == found.value


def test_pitch_of_the_trunk(design):
    """A lower trunk needs a lower head strap: less than before, by more than a hand's breadth."""
    found = find_trim(design, "trunk 4 deg", vary="head_strap_height", mesh_size=0.1)
    assert found.result.summary["comfort"]["trunk_pitch_rad"] == pytest.approx(radians(4), abs=radians(0.1))
    assert found.value < design.hammock.suspension.head_strap_height - 0.05


def test_wish_out_of_reach_is_told(design):
    with pytest.raises(NoEquilibriumError, match=r"vary something else|No equilibrium|slid"):
        find_trim(design, "trunk 60 deg", mesh_size=0.1)


def test_search_that_leaves_what_can_hang_ends_in_a_sentence(design):
    with pytest.raises(NoEquilibriumError, match=r"vary something else|cannot hang|No equilibrium"):
        find_trim(design, "trunk -20 deg", vary="line_length", mesh_size=0.1)


def test_command_says_what_to_change():
    outcome = CliRunner().invoke(command.main, ["trim", LARCH, "--wish", "no slide"])
    assert outcome.exit_code == 0, outcome.output
    assert "foot_strap_height = " in outcome.output
