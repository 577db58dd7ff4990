"""Rings and tips that the design states are named as NOT CHECKED, with what they bear; PASS does not cover them."""

from dataclasses import replace

import pytest
from rich.console import Console

from tautlay.cases.command.printing.overview import print_overview
from tautlay.cases.judging.checks import Case, list_checks
from tautlay.cases.unit_display import write_sentence
from tautlay.making import CornerPlate, Rigging
from tautlay.materials import Plate, read_library

PLATE = CornerPlate(read_library().find(Plate, "6061-T6 sheet 1/8 in"), 0.032, 0.0095, 0.016, 0.0064, 0.0127, 0.0016)


def find(result, **changes):
    work = replace(result.design.workmanship, **changes)
    unchecked = list_checks(Case(result.model, result.state, result.forces, work)).unchecked
    return {each.part: write_sentence(each.reason, "metric") for each in unchecked}


def test_rings_bear_the_pull_of_the_line_and_tips_the_thrust(solved_larch):
    found, forces = find(solved_larch), solved_larch.forces
    assert f"It bears {max(forces.head_line, forces.foot_line):.0f} N" in found["apex rings"]
    assert f"It bears {max(forces.head_bar_thrust, forces.foot_bar_thrust):.0f} N" in found["bar tips"]


def test_ring_at_one_end_bears_the_line_of_that_end(solved_larch):
    made = solved_larch.design.workmanship
    bare = replace(made.head_rigging, leg_at_apex=replace(made.head_rigging.leg_at_apex, over=None))
    assert f"{solved_larch.forces.foot_line:.0f} N" in find(solved_larch, head_rigging=bare)["apex rings"]
    assert "apex rings" not in find(solved_larch, head_rigging=bare, foot_rigging=Rigging())


@pytest.mark.parametrize(("corner", "named"), [(PLATE, True), (None, False)])
def test_plate_leaves_the_tip_unchecked_and_no_corner_is_its_own_line(solved_larch, corner, named):
    found = find(solved_larch, corner=corner)
    assert ("bar tips" in found) == named
    assert ("corners" in found) != named


def test_file_and_screen_name_them_beside_the_verdict(solved_larch, tmp_path):
    record = solved_larch.record
    assert {"apex rings", "bar tips"} <= {each["part"] for each in solved_larch.summary["unchecked"]}
    with (tmp_path / "screen").open("w") as file:
        print_overview(record, solved_larch.findings, "metric", Console(width=80, file=file))
    assert "NOT CHECKED: apex rings, bar tips. `--details` tells" in (tmp_path / "screen").read_text()
