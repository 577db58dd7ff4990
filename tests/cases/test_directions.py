"""What every maker knows comes out: directions in which forces and lay change, common practice, no source.

A lying person in contact, between the same trees unless the hang angle is what changes.
"""

import dataclasses
import functools
from importlib.resources import files
from math import radians, sin, tan

import pytest

from tautlay.cases import read_design
from tautlay.cases.solving.solution import solve_equilibrium
from tautlay.hammock import Person, Sex, find_percentile

INCH = 0.0254
TREES = 4.27  # m


@functools.cache
def load_design():
    return read_design(str(files("tautlay.cases") / "larch_ridge.toml"))


@functools.cache
def lie(mesh_size=0.08, load="lying", **changes):
    """Return the summary of the design with single values changed, such as head_bar__length."""
    design = load_design()
    hammock = dataclasses.replace(
        design.hammock, suspension=dataclasses.replace(design.hammock.suspension, hang_angle=None, tree_distance=TREES)
    )
    person = changes.pop("person", design.person)
    if "hang_angle" in changes:
        changes["suspension__tree_distance"], changes["suspension__hang_angle"] = (
            None,
            radians(changes.pop("hang_angle")),
        )
    if "arc" in changes:
        arc = dataclasses.replace(hammock.body.left_arc, depth=changes.pop("arc"))
        changes |= {"body__left_arc": arc, "body__right_arc": arc}
    if "foot_strap_height" in changes:
        foot = {"strap_height": changes.pop("foot_strap_height")}
        hammock = dataclasses.replace(hammock, suspension=hammock.suspension.change({}, foot))
    for part in {name.split("__")[0] for name in changes}:
        own = {name.split("__")[1]: value for name, value in changes.items() if name.startswith(f"{part}__")}
        hammock = dataclasses.replace(hammock, **{part: dataclasses.replace(getattr(hammock, part), **own)})
    result = solve_equilibrium(
        dataclasses.replace(design, hammock=hammock, person=person), load=load, mesh_size=mesh_size, hot_spots=False
    )
    return result.summary


@pytest.mark.slow
def test_longer_head_bar_lies_flatter_and_squeezes_less():
    rows = [lie(head_bar__length=length)["comfort"] for length in (0.8, 0.9, 1.0)]
    for key in ("shoulder_angle_rad", "shoulder_squeeze_N", "trough_depth_m"):
        values = [row[key] for row in rows]
        assert values == sorted(values, reverse=True), (key, values)


@pytest.mark.slow
def test_head_bar_nearer_to_the_shoulders_squeezes_less():
    """The bar moved in by 15 cm towards the same sleeper, mesh 50 mm."""
    person = load_design().person
    rows = [lie(mesh_size=0.05, person=dataclasses.replace(person, head_from_bar=far)) for far in (0.22, 0.07)]
    squeeze = [row["comfort"]["shoulder_squeeze_N"] for row in rows]
    assert squeeze[1] < 0.98 * squeeze[0]


def test_deeper_arc_shapes_the_bed_and_leaves_the_cords():
    """A deeper arc lets the body sag less; the side cord's tension stays within 2 %, as statics says.

    Side cords hang between the corners like a cable with the weight between them: their pull along the hammock
    is W/(2 tan a) at the line's angle a whatever the arc (textbook statics), and both thrusts change by less than 5 %.
    """
    shallow, deep = lie(arc=0.10), lie(arc=0.24)
    assert deep["shape"]["sag_m"] < 0.9 * shallow["shape"]["sag_m"]
    for key in ("side_cord_left_max_N", "head_bar_thrust_N", "foot_bar_thrust_N"):
        assert deep["forces"][key] == pytest.approx(shallow["forces"][key], rel=0.05 if "bar" in key else 0.02)
    for row in (shallow, deep):
        angle = row["shape"]["hang_angle_rad"]
        weight = (row["weights"]["person_kg"] + row["weights"]["hammock_kg"]) * 9.80665
        level = row["anchors"]["foot_tree_N"][0]
        assert abs(level) == pytest.approx(weight / (2 * tan(angle)), rel=0.02)


@pytest.mark.slow
def test_raised_foot_end_slides_one_to_the_head():
    low, middle, high = (lie(foot_strap_height=height)["comfort"]["slide"] for height in (1.7, 1.8, 1.9))
    assert low < middle < high
    assert low < 0 < high  # held against sliding to the feet, then to the head


def test_more_cloth_under_the_same_bars_sags_deeper():
    narrow, wide = lie(body__head_width=1.10, body__foot_width=0.98), lie(body__head_width=1.30, body__foot_width=1.18)
    for group, key in (("shape", "sag_m"), ("comfort", "trough_depth_m")):
        assert wide[group][key] > 1.1 * narrow[group][key]


def test_steeper_hang_angle_lowers_line_tension():
    """And the two lines carry W/(2 sin a) each on the average, textbook statics, 2 %."""
    flat, steep = lie(hang_angle=25), lie(hang_angle=40)
    for key in ("head_line_N", "foot_line_N", "side_cord_left_max_N", "head_bar_thrust_N"):
        assert steep["forces"][key] < 0.8 * flat["forces"][key]
    for row in (flat, steep):
        weight = (row["weights"]["person_kg"] + row["weights"]["hammock_kg"]) * 9.80665
        mean = (row["forces"]["head_line_N"] + row["forces"]["foot_line_N"]) / 2
        assert mean == pytest.approx(weight / (2 * sin(row["shape"]["hang_angle_rad"])), rel=0.02)


def test_three_foot_bar_over_four_feet_of_cloth_is_a_flat_lay():
    """36 in of bar over 48 in of cloth lies flatter for a median man than 30 in over the same cloth."""
    stature, mass = find_percentile(Sex.MALE, 50)
    man = Person(stature, mass, Sex.MALE, 0.15)
    common = {
        "person": man, "hang_angle": 30, "body__head_width": 48 * INCH, "body__foot_width": 44 * INCH,
        "body__length": 2.10, "foot_bar__length": 28 * INCH,
    }  # fmt: skip
    narrow, wide = (lie(head_bar__length=bar * INCH, **common)["comfort"] for bar in (30, 36))
    assert wide["shoulder_angle_rad"] < narrow["shoulder_angle_rad"] - radians(5)
    assert wide["trough_depth_m"] < narrow["trough_depth_m"]
    assert wide["shoulder_squeeze_N"] < 0.95 * narrow["shoulder_squeeze_N"]


def test_sudden_load_doubles_and_sitting_leans():
    """Twice the weight pulls nearly twice as hard (trees fixed: a little less than twice); sitting loads one side more."""
    solved = [lie(load=load) for load in ("distributed", "sudden", "sitting")]
    assert [found["design"]["load_factor"] for found in solved] == [1.0, 2.0, 1.0]
    spread, sudden, sitting = (found["forces"] for found in solved)
    for key in ("head_line_N", "side_cord_left_max_N", "head_bar_thrust_N"):
        assert 1.85 * spread[key] < sudden[key] < 2.02 * spread[key]
    assert sitting["side_cord_left_max_N"] > 1.1 * sitting["side_cord_right_max_N"]
    assert sitting["head_leg_left_N"] > sitting["head_leg_right_N"]


@pytest.mark.slow
def test_a_bar_over_the_shoulders_with_the_head_beyond_it_lies_flatter_across():
    """The head bar moved 20 cm towards the same sleeper, whose head then lies 5 cm beyond it; common practice, no source.

    The cloth runs on to where it ended. Across the shoulders it is flatter and squeezes less; the price is a neck bent
    further forward, on cloth that rises towards the apex, and more thrust in the bar. Mesh 60 mm.
    """
    design = load_design()
    before = lie(mesh_size=0.06)
    person = dataclasses.replace(design.person, head_from_bar=design.person.head_from_bar - 0.20)
    length = design.hammock.body.length - 0.20
    after = lie(mesh_size=0.06, person=person, body__length=length, head_bar__set_in=0.25)
    flat, tight = (row["comfort"] for row in (after, before))
    assert flat["shoulder_angle_rad"] < tight["shoulder_angle_rad"] - radians(3.0)
    assert flat["shoulder_squeeze_N"] < 0.98 * tight["shoulder_squeeze_N"]
    assert flat["neck_bend_rad"] > tight["neck_bend_rad"]
    assert after["forces"]["head_bar_thrust_N"] > before["forces"]["head_bar_thrust_N"]
    assert any("beyond the head bar" in note for note in after["notes"])
