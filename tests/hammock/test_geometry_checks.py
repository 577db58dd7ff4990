"""Every fault and every caution has a design that shows it, and says the numbers."""

import re
from dataclasses import replace
from functools import partial
from math import nan, radians
from operator import attrgetter
from types import SimpleNamespace

import pytest

from tautlay.hammock import (
    Arc,
    ArcShape,
    Attachment,
    HammockError,
    Person,
    Sex,
    example_hammock,
    example_person,
    find_design_warnings,
    find_geometry_issues,
)
from tautlay.meshing import build_model

HAMMOCK, PERSON = example_hammock(), example_person()


def change(**parts):
    """The example with fields of its parts changed: body={"length": 2.2} and so on; suspension={"head": {...}}."""
    made = {name: dict(new) for name, new in parts.items()}
    if "suspension" in made:
        ends = {
            end: replace(HAMMOCK.suspension.pick(end), **made["suspension"].pop(end, {})) for end in ("head", "foot")
        }
        made["suspension"] |= ends
    return replace(HAMMOCK, **{name: replace(getattr(HAMMOCK, name), **new) for name, new in made.items()})


FAULTS = {
    "long head bar": ({"head_bar": {"length": 1.2}}, ["head bar is 120.0 cm long", "only 116.0 cm wide"]),
    "long foot bar": ({"foot_bar": {"length": 1.12}}, ["foot bar is 112.0 cm long", "only 112.0 cm wide"]),
    "short legs": (
        {"suspension": {"head": {"leg_length": 0.43}}},
        ["head legs of 43.00 cm", "half the bar, 43.00 cm"],
    ),
    "set in too far": ({"foot_bar": {"set_in": 0.7}}, ["set in 70.00 cm", "reach only 61.45 cm"]),
    "short cord": (
        {"channel": {"cord_length": 1.9}},
        ["cord of 190.0 cm is shorter than the straight left side, 200.0 cm"],
    ),
    "endless cord": ({"channel": {"cord_length": 3.0}}, ["cord of 3.000 m is more than 1.25 times"]),
    "no lock": ({"channel": {"attachment": Attachment.LOCKED}}, ["lock length of 0 mm must be above zero"]),
    "long lock": (
        {"channel": {"attachment": Attachment.LOCKED, "lock_length": 1.1}},
        ["lock length of 110.0 cm", "under half the left edge"],
    ),
    "arcs meet": ({"body": {"left_arc": Arc(0.6), "right_arc": Arc(0.6)}}, ["two side arcs meet"]),
    "arcs nearly meet": (
        # a waist of 1.14 m - 2 x 0.49 m = 16 cm; 20 cm is left at a depth of 47 cm
        {"body": {"left_arc": Arc(0.49), "right_arc": Arc(0.49)}},
        ["would be 16.0 cm wide", "at least 20.0 cm", "no deeper than 47.0 cm"],
    ),
    "one arc too deep": (
        {"body": {"left_arc": Arc(0.8), "right_arc": Arc(0.2)}},
        ["left arc no deeper than 75.2 cm", "right one no deeper than 18.8 cm"],
    ),
    "circle turns back": ({"body": {"left_arc": Arc(1.1, ArcShape.CIRCLE)}}, ["turns back under its corners"]),
    "neither": ({"suspension": {"hang_angle": None}}, ["either hang_angle or tree_distance"]),
    "both": ({"suspension": {"tree_distance": 4.5}}, ["either hang_angle or tree_distance"]),
    "steep": ({"suspension": {"hang_angle": radians(81)}}, ["hang angle of 81.0 degrees", "at most 80 degrees"]),
    "far trees": (
        {"suspension": {"hang_angle": None, "tree_distance": 5.5}},
        ["trees are 5.50 m apart", "reach only 5.23 m"],
    ),
    "near trees": (
        {"suspension": {"hang_angle": None, "tree_distance": 1.8}},
        ["180 cm apart", "line angle would be 8", "choose trees farther apart"],
    ),
    "trees inside the body": (
        {"suspension": {"hang_angle": None, "tree_distance": 1.0}},
        ["trees are 100 cm apart, too close"],
    ),
    "straps uneven": (
        {"suspension": {"head": {"strap_height": 3.5}, "foot": {"strap_height": 0.5}}},
        ["straps are 3.50 m (head) and 50.0 cm (foot)"],
    ),
    "negative": ({"body": {"length": -2.0}}, ["hammock.body.length is -2. It must be a finite number"]),
    "not a number": ({"suspension": {"foot": {"line_length": nan}}}, ["hammock.suspension.foot.line_length is nan"]),
    "zero": ({"body": {"layers": 0}}, ["hammock.body.layers is zero. It must be greater than zero."]),
    "arc outward": ({"body": {"left_arc": Arc(-0.1)}}, ["hammock.body.left_arc.depth is -0.1"]),
}


def test_the_example_is_sound():
    assert find_geometry_issues(HAMMOCK, PERSON) == []
    assert find_design_warnings(HAMMOCK, PERSON) == []


@pytest.mark.parametrize("name", FAULTS)
def test_fault(name):
    changes, words = FAULTS[name]
    hammock = change(**changes)
    faults = [str(flaw) for flaw in find_geometry_issues(hammock, PERSON)]
    assert any(all(word in fault for word in words) for fault in faults), faults
    assert all(fault[0].isupper() or fault.startswith("hammock.") for fault in faults)
    assert all(fault.endswith(".") and "\n" not in fault for fault in faults)
    with pytest.raises(HammockError) as error:
        build_model(hammock, PERSON, 0.1)
    assert list(map(str, error.value.faults)) == faults


@pytest.mark.parametrize("name", FAULTS)
def test_every_fault_names_fields_that_exist(name):
    for flaw in find_geometry_issues(change(**FAULTS[name][0]), replace(PERSON, stature=2.4)):
        assert flaw.keys
        for key in flaw.keys:
            attrgetter(key)(SimpleNamespace(**vars(HAMMOCK), person=PERSON))


@pytest.mark.parametrize(("deep", "words"), [(0.52, "comes within"), (0.7, "crosses the middle line")])
def test_one_side_cut_to_the_middle(deep, words):
    hammock = change(body={"left_arc": Arc(deep), "right_arc": Arc(0.01)})
    assert find_geometry_issues(hammock) == []
    (issue,) = find_geometry_issues(hammock, PERSON)
    assert f"The left edge {words}" in str(issue)
    assert find_geometry_issues(change(body={"left_arc": Arc(0.35), "right_arc": Arc(0.01)}), PERSON) == []


def test_person_too_long():
    tall = replace(PERSON, stature=1.95)
    assert [str(flaw) for flaw in find_geometry_issues(HAMMOCK, tall)] == [
        "A person of 195.0 cm lying 10.0 cm from the head bar needs 205.0 cm, but the body is 200.0 cm long. Lengthen the body "
        "or move the head closer to the bar."
    ]
    assert "person.mass is -80" in str(find_geometry_issues(HAMMOCK, replace(PERSON, mass=-80.0))[0])


def test_all_faults_at_once():
    hammock = change(
        head_bar={"length": 1.3}, foot_bar={"length": 1.3}, channel={"cord_length": 1.0}, suspension={"hang_angle": 1.5}
    )
    faults = " ".join(str(flaw) for flaw in find_geometry_issues(hammock, Person(2.1, 80.0, Sex.MALE, 0.2)))
    for word in ("head bar", "foot bar", "left side", "right side", "hang angle", "person of 210.0 cm"):
        assert word in faults, word


def test_an_overriding_tree_distance_is_checked_too():
    with pytest.raises(HammockError, match=r"trees are 6\.00 m apart"):
        build_model(HAMMOCK, PERSON, 0.1, tree_distance=6.0)


CAUTIONS = {
    "short bar": ({"head_bar": {"length": 0.5}}, "head bar of 50.0 cm spans less than half"),
    "drum": ({"foot_bar": {"length": 1.1}}, "foot bar takes up nearly the whole width"),
    "narrow": ({"body": {"left_arc": Arc(0.36), "right_arc": Arc(0.36)}}, "only 42.0 cm wide"),
    "cord shorter than the edge": (
        {"channel": {"cord_length": 2.03}, "body": {"left_arc": Arc(0.3)}},
        "gathers the cloth",
    ),
    "cord longer than the edge": ({"channel": {"cord_length": 2.3}}, "longer than the edge"),
    "flat": ({"suspension": {"hang_angle": radians(10)}}, "at 10 degrees"),
    "steep": ({"suspension": {"hang_angle": radians(65)}}, "steeper than usual"),
    "short": ({"body": {"length": 1.95}}, "short for this person: 7.00 cm of cloth are left beyond the soles"),
}


@pytest.mark.parametrize("name", CAUTIONS)
def test_caution(name):
    changes, words = CAUTIONS[name]
    cautions = find_design_warnings(change(**changes), PERSON)
    assert any(words in caution for caution in cautions), cautions


def test_caution_about_soft_cloth_on_a_sliding_cord():
    soft = replace(HAMMOCK.body.fabric, shear=10.0)
    hammock = change(body={"fabric": soft}, channel={"attachment": Attachment.FREE})
    assert any("shear stiffness of the cloth is only 10 N/m" in caution for caution in find_design_warnings(hammock))
    assert find_design_warnings(change(body={"fabric": soft})) == []


def test_caution_about_a_broad_person():
    narrow = change(body={"left_arc": Arc(0.33), "right_arc": Arc(0.33)})
    assert any("of the breadth at" in caution for caution in find_design_warnings(narrow, replace(PERSON, mass=110.0)))


def test_no_cautions_without_soundness():
    with pytest.raises(HammockError):
        find_design_warnings(change(head_bar={"length": 1.2}))


def test_deepest_arc_that_is_named_is_accepted():
    deepest = change(body={"left_arc": Arc(0.469), "right_arc": Arc(0.469)})
    assert not any("arcs" in flaw.sentence for flaw in find_geometry_issues(deepest))


def test_faults_and_cautions_can_be_written_in_inches():
    in_inches = partial(show_inches, per_metre=1 / 0.0254)
    (fault,) = find_geometry_issues(change(head_bar={"length": 1.27}))
    assert fault.sentence.write(in_inches).startswith("The head bar is 50.0 in long but the body is only 45.7 in wide")
    (caution,) = find_design_warnings(change(head_bar={"length": 0.508}))
    assert "bar of 20.0 in spans" in caution.write(in_inches)
    assert not re.search(r"[0-9] (m|cm|mm)\b", fault.sentence.write(in_inches) + caution.write(in_inches))


def show_inches(value, dimension, digits, per_metre):
    assert dimension == "length"
    return f"{value * per_metre:.1f} in"
