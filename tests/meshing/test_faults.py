"""Every fault and every caution has a design that shows it, and says the numbers."""

from dataclasses import replace
from math import nan, radians
from operator import attrgetter
from types import SimpleNamespace

import pytest

from tautlay.meshing import (
    Arc,
    ArcShape,
    Attachment,
    HammockError,
    Person,
    Sex,
    build_model,
    example_hammock,
    example_person,
    find_cautions,
    find_faults,
)

HAMMOCK, PERSON = example_hammock(), example_person()


def change(**parts):
    """The example with fields of its parts changed: body={"length": 2.2} and so on."""
    return replace(HAMMOCK, **{name: replace(getattr(HAMMOCK, name), **new) for name, new in parts.items()})


FAULTS = {
    "long head bar": ({"head_bar": {"length": 1.2}}, ["head bar is 1.200 m long", "only 1.160 m wide"]),
    "long foot bar": ({"foot_bar": {"length": 1.12}}, ["foot bar is 1.120 m long", "only 1.120 m wide"]),
    "short legs": (
        {"suspension": {"head_leg_length": 0.43}},
        ["head legs of 0.430 m", "half the bar, 0.430 m"],
    ),
    "set in too far": ({"foot_bar": {"set_in": 0.7}}, ["set in 0.700 m", "reach only 0.614 m"]),
    "short cord": ({"channel": {"cord_length": 1.9}}, ["cord of 1.900 m is shorter than the 2.000 m straight"]),
    "endless cord": ({"channel": {"cord_length": 3.0}}, ["cord of 3.000 m is more than 1.25 times"]),
    "no lock": ({"channel": {"attachment": Attachment.LOCKED}}, ["lock length is 0.000 m"]),
    "long lock": (
        {"channel": {"attachment": Attachment.LOCKED, "lock_length": 1.1}},
        ["lock length is 1.100 m", "under half the left edge"],
    ),
    "arcs meet": ({"body": {"left_arc": Arc(0.6), "right_arc": Arc(0.6)}}, ["two side arcs meet"]),
    "circle turns back": ({"body": {"left_arc": Arc(1.1, ArcShape.CIRCLE)}}, ["turns back under its corners"]),
    "neither": ({"suspension": {"hang_angle": None}}, ["either the hang angle or the tree distance"]),
    "both": ({"suspension": {"tree_distance": 4.5}}, ["either the hang angle or the tree distance"]),
    "steep": ({"suspension": {"hang_angle": radians(81)}}, ["hang angle is 81.0 degrees", "up to 80 degrees"]),
    "far trees": (
        {"suspension": {"hang_angle": None, "tree_distance": 5.5}},
        ["trees are 5.50 m apart", "reach only 5.23 m"],
    ),
    "near trees": (
        {"suspension": {"hang_angle": None, "tree_distance": 1.8}},
        ["1.80 m apart", "lines would stand at 8", "choose trees farther apart"],
    ),
    "trees inside the body": (
        {"suspension": {"hang_angle": None, "tree_distance": 1.0}},
        ["trees are 1.00 m apart, too close"],
    ),
    "straps uneven": (
        {"suspension": {"head_strap_height": 3.5, "foot_strap_height": 0.5}},
        ["straps are 3.50 m (head) and 0.50 m (foot)"],
    ),
    "negative": ({"body": {"length": -2.0}}, ["hammock.body.length is -2; it must be a finite number"]),
    "not a number": ({"suspension": {"line_length": nan}}, ["hammock.suspension.line_length is nan"]),
    "zero": ({"body": {"layers": 0}}, ["hammock.body.layers is zero; it must be greater than zero."]),
    "arc outward": ({"body": {"left_arc": Arc(-0.1)}}, ["hammock.body.left_arc.depth is -0.1"]),
}


def test_the_example_is_sound():
    assert find_faults(HAMMOCK, PERSON) == []
    assert find_cautions(HAMMOCK, PERSON) == []


@pytest.mark.parametrize("name", FAULTS)
def test_fault(name):
    changes, words = FAULTS[name]
    hammock = change(**changes)
    faults = [str(flaw) for flaw in find_faults(hammock, PERSON)]
    assert any(all(word in fault for word in words) for fault in faults), faults
    assert all(fault[0].isupper() or fault.startswith("hammock.") for fault in faults)
    assert all(fault.endswith(".") and "\n" not in fault for fault in faults)
    with pytest.raises(HammockError) as error:
        build_model(hammock, PERSON, 0.1)
    assert list(map(str, error.value.faults)) == faults


@pytest.mark.parametrize("name", FAULTS)
def test_every_fault_names_fields_that_exist(name):
    for flaw in find_faults(change(**FAULTS[name][0]), replace(PERSON, stature=2.4)):
        assert flaw.keys
        for key in flaw.keys:
            attrgetter(key)(SimpleNamespace(**vars(HAMMOCK), person=PERSON))


def test_person_too_long():
    tall = replace(PERSON, stature=1.95)
    assert [str(flaw) for flaw in find_faults(HAMMOCK, tall)] == [
        "A person of 1.95 m lying 0.10 m from the head bar needs 2.05 m but the body is 2.00 m long; lengthen the body "
        "or move the head closer to the bar."
    ]
    assert "person.mass is -80" in str(find_faults(HAMMOCK, replace(PERSON, mass=-80.0))[0])


def test_all_faults_at_once():
    hammock = change(
        head_bar={"length": 1.3}, foot_bar={"length": 1.3}, channel={"cord_length": 1.0}, suspension={"hang_angle": 1.5}
    )
    faults = " ".join(str(flaw) for flaw in find_faults(hammock, Person(2.1, 80.0, Sex.MALE, 0.2)))
    for word in ("head bar", "foot bar", "left side", "right side", "hang angle", "person of 2.10 m"):
        assert word in faults, word


def test_an_overriding_tree_distance_is_checked_too():
    with pytest.raises(HammockError, match=r"trees are 6\.00 m apart"):
        build_model(HAMMOCK, PERSON, 0.1, tree_distance=6.0)


CAUTIONS = {
    "short bar": ({"head_bar": {"length": 0.5}}, "head bar of 0.50 m spans less than half"),
    "drum": ({"foot_bar": {"length": 1.1}}, "foot bar takes up nearly the whole width"),
    "narrow": ({"body": {"left_arc": Arc(0.36), "right_arc": Arc(0.36)}}, "only 0.42 m wide"),
    "cord shorter than the edge": (
        {"channel": {"cord_length": 2.03}, "body": {"left_arc": Arc(0.3)}},
        "gathers the cloth",
    ),
    "cord longer than the edge": ({"channel": {"cord_length": 2.3}}, "leaves the load to the cloth's edge"),
    "flat": ({"suspension": {"hang_angle": radians(10)}}, "at about 10 degrees"),
    "steep": ({"suspension": {"hang_angle": radians(65)}}, "steeper than is usual"),
    "low": ({"suspension": {"head_strap_height": 1.3, "foot_strap_height": 1.3}}, "would reach the ground"),
}


@pytest.mark.parametrize("name", CAUTIONS)
def test_caution(name):
    changes, words = CAUTIONS[name]
    cautions = find_cautions(change(**changes), PERSON)
    assert any(words in caution for caution in cautions), cautions


def test_caution_about_soft_cloth_on_a_sliding_cord():
    soft = replace(HAMMOCK.body.fabric, shear=10.0)
    hammock = change(body={"fabric": soft}, channel={"attachment": Attachment.FREE})
    assert any("shear stiffness of only 10 N/m" in caution for caution in find_cautions(hammock))
    assert find_cautions(change(body={"fabric": soft})) == []


def test_caution_about_a_broad_person():
    narrow = change(body={"left_arc": Arc(0.33), "right_arc": Arc(0.33)})
    assert any("room for" in caution for caution in find_cautions(narrow, replace(PERSON, mass=110.0)))


def test_no_cautions_without_soundness():
    with pytest.raises(HammockError):
        find_cautions(change(head_bar={"length": 1.2}))
