"""Numbers that a page or a comment quotes are those of the program."""

from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import pytest

from tautlay.cases import read_design, solve_case
from tautlay.making import TerminationType
from tautlay.making.channel_strength import EFFICIENCIES
from tautlay.making.retained_strength import SHARES
from tautlay.making.stitching import _FACTORS, _RANGES, Stitch
from tautlay.meshing.occupant import _PILLOW, _SKULL, FLESH_MODULUS

DOCS = Path(__file__).parents[2] / "docs"
LARCH = Path(str(files("tautlay.cases") / "larch_ridge.toml"))


def read_words(page):
    return " ".join((DOCS / page).read_text(encoding="utf-8").split())


def span(limits, scale=100.0):
    return f"{scale * limits[0]:g} to {scale * limits[1]:g}"


def test_values_that_are_no_lower_ends_are_named():
    """Every share that stands above the low end of its range is named on the page."""
    words = read_words("guides/cords_corners_trees.md")
    above = [end for end, share in SHARES.items() if share.range and share.value > share.range[0]]
    assert above == [("webbing", TerminationType.HITCH)]
    choked, (seam, _, _, limits) = SHARES[above[0]], EFFICIENCIES[2]
    assert f"choked strap ({100 * choked.value:.0f} % of {span(choked.range)} %)" in words
    assert f"two rows ({100 * seam:.0f} % of {span(limits)} %)" in words
    nylon, polyester = span(_RANGES["nylon"], 1.0), span(_RANGES["polyester"], 1.0)
    assert f"{_FACTORS[Stitch.LOCK]} of {nylon} for nylon, of {polyester} for polyester" in words


def test_legs_give_most_of_the_thrust(solved_larch):
    """T h / s against the thrust of the bar: what side cords and cloth add is the rest."""
    forces = solved_larch.forces
    share = forces.head_leg_left * 0.45 / 0.70 / forces.head_bar_thrust  # half the bar, the leg, m
    assert share == pytest.approx(0.70, abs=0.04)
    assert "some 70 % of its thrust" in read_words("theory/cords_and_bars.md")


def test_stiffness_of_flesh_stands_on_the_page():
    assert (FLESH_MODULUS, _SKULL, _PILLOW) == (30e3, 10.0, 50e3)
    assert "30 kPa$/r$, a skull ten times as stiff, a pillow 50 kPa/m" in read_words("theory/body.md")


def test_comment_of_the_demonstration_on_clearance(solved_larch):
    assert "more than 40 cm clear of the ground" in LARCH.read_text(encoding="utf-8")
    assert solved_larch.record.shape.ground_clearance > 0.40


@pytest.mark.slow
@pytest.mark.parametrize(
    ("friction", "told", "push"), [(0.1, "(0.1) 35 N", 35.0), (0.0, "next to nothing, 0.2 N", 0.2)]
)
def test_swing_push_hangs_on_friction(friction, told, push):
    design = read_design(LARCH)
    found = solve_case(replace(design, person=replace(design.person, friction=friction)), load="lying")
    assert found.summary["stability"]["swing_push_N"] == pytest.approx(push, abs=0.5 if friction else 0.05)
    assert told in read_words("guides/lying_in_it.md")
