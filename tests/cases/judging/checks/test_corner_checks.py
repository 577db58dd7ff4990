"""Corner plates of a solved hammock: the weakest place is named first."""

from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import pytest

from tautlay.cases import DesignError, read_design
from tautlay.cases.judging.checks import Case, list_checks
from tautlay.making import CornerPlate, TipLoop, Workmanship
from tautlay.materials import Plate, read_library

OTTER = Path(str(files("tautlay.cases"))) / "otter_creek.toml"
PLATE = CornerPlate(read_library().find(Plate, "6061-T6 sheet 1/8 in"), 0.032, 0.0095, 0.016, 0.0064, 0.0127, 0.0016)


def find(result, corner):
    made = result.design.workmanship
    work = Workmanship(head_rigging=made.head_rigging, foot_rigging=made.foot_rigging, corner=corner)
    return list_checks(Case(result.model, result.state, result.forces, work))


def test_sound_plate_holds(solved_larch):
    checks = [check for check in find(solved_larch, PLATE).checks if check.part.endswith("corner")]
    assert len(checks) == 4 * 3 * 3
    assert all(check.passed for check in checks)


@pytest.mark.parametrize(
    ("change", "part", "mechanism"),
    [
        ({"cord_edge": 0.0034}, "corner", "tears out at leg hole"),
        ({"tip_edge": 0.0049}, "corner", "tears out at tip hole"),
        ({"width": 0.0097}, "corner", "breaks across tip hole"),
        ({"plate": replace(PLATE.plate, bearing_strength=50e6)}, "corner", "crushes at leg hole"),
        ({"edge_radius": 0.0001}, "leg", "breaks over hole"),
    ],
)
def test_weak_place_is_named_first(solved_larch, change, part, mechanism):
    first = find(solved_larch, replace(PLATE, **change)).checks[0]
    assert part in first.part
    assert first.mechanism == mechanism
    assert not first.passed


def test_holes_see_cord_leg_and_thrust(solved_larch):
    forces = solved_larch.summary["forces"]
    found = {(c.part, c.mechanism): c.demand for c in find(solved_larch, PLATE).checks}
    assert found["left head corner", "tears out at tip hole"] == forces["head_bar_thrust_N"]
    assert found["right foot corner", "tears out at leg hole"] == forces["foot_leg_right_N"]
    assert found["left head corner", "breaks across cord hole"] == pytest.approx(
        forces["side_cord_left_max_N"], rel=0.2
    )


def test_thin_tip_breaks_the_eyes_over_it(solved_larch):
    first = find(solved_larch, TipLoop(0.0005)).checks[0]
    assert first.mechanism == "breaks over tip"


def test_untold_corner_is_not_checked(solved_larch):
    assert any(each.part == "corners" and "[corner]" in each.reason for each in find(solved_larch, None).unchecked)


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ('width = "1 1/4 in"\n', "", "corner.width is missing: width of a corner made as a plate"),
        ('made = "plate"', 'made = "loop"', "corner.plate does not belong to a corner made as a loop. Remove it."),
        ('made = "plate"', 'made = "plait"', "Did you mean plate?"),
        ('plate = "6061-T6 sheet 1/8 in"', 'plate = "6061 sheet"', "is not a plate in the library"),
        ('cord_edge = "1/2 in"', 'cord_edge = "1/8 in"', "reaches over the edge of its plate"),
        ('edge_radius = "1/16 in"', 'edge_radius = "1 ft"', "must be between"),
        ("locked = true", 'locked = true\nover = "1 cm"', "has no effect: [corner] gives the bend of this end"),
    ],
)  # fmt: skip
def test_faults_of_corners_are_plain_sentences(tmp_path, old, new, sentence):
    text = OTTER.read_text(encoding="utf-8")
    assert old in text
    (tmp_path / "a.toml").write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(DesignError) as caught:
        read_design(tmp_path / "a.toml")
    assert sentence in str(caught.value)
