"""Measures of comfort against what plain geometry says of a turned or moved body."""

import dataclasses
from importlib.resources import files
from math import pi, radians
from types import SimpleNamespace

import numpy as np
import pytest
from matplotlib.figure import Figure

from tautlay.cases import read_design, solve_case
from tautlay.cases.display.result_rows import list_comfort
from tautlay.cases.judging.comfort.lay_notes import make_restraint_sentence, note_lay
from tautlay.cases.judging.comfort.measure_list import MEASURES, find_measure
from tautlay.cases.judging.comfort.measurement import measure_comfort
from tautlay.cases.storage.gather_shape import gather_shape
from tautlay.cases.unit_display import show_quantity
from tautlay.hammock import LyingSide, Posture
from tautlay.meshing import occupant
from tautlay.solver import Contact
from tautlay.viewer.section import draw_section

G = 9.80665  # m/s2, NIST SP 811


@pytest.fixture(scope="module")
def lying():
    design = read_design(str(files("tautlay.cases") / "larch_ridge.toml"))
    return solve_case(design, load="lying", mesh_size=0.1, hot_spots=False)


def turn(result, angle, axis):
    """Return the measures with everything turned rigidly: axis 1 lifts the feet, axis 0 rolls to the right."""
    cos, sin = np.cos(angle), np.sin(angle)
    rotation = np.eye(3)
    i, j = (0, 2) if axis == 1 else (1, 2)
    rotation[i, i], rotation[i, j], rotation[j, i], rotation[j, j] = cos, -sin, sin, cos
    return measure_comfort(
        result.model, dataclasses.replace(result.state, positions=result.state.positions @ rotation.T)
    )


def test_all_measures_are_in_the_summary(lying):
    found = lying.summary["comfort"]
    assert [*(measure.key for measure in MEASURES), "slide", "high_pressure_part"] == list(found)
    for measure in MEASURES:
        assert all((measure.formula, measure.better, measure.sure))
        if measure.aim is not None:
            low, high = (f"{np.degrees(end):g}" for end in measure.aim)
            assert measure.better.startswith(f"{low} to {high} deg")


@pytest.mark.parametrize("degrees", [-4, 3])
def test_pitches_turn_with_the_body(lying, degrees):
    """Feet lifted by an angle: trunk pitch falls and leg pitch rises by it; bends stay."""
    before, after = lying.comfort, turn(lying, radians(degrees), 1)
    assert after.trunk_pitch - before.trunk_pitch == pytest.approx(-radians(degrees), abs=1e-9)
    assert after.leg_pitch - before.leg_pitch == pytest.approx(radians(degrees), abs=1e-9)
    for name in ("hip_angle", "knee_flexion", "bar_to_face"):
        assert getattr(after, name) == pytest.approx(getattr(before, name), abs=1e-9)


def test_roll_turns_with_the_body(lying):
    assert lying.summary["comfort"]["roll_rad"] == pytest.approx(0, abs=1e-3)
    assert turn(lying, radians(10), 0).roll == pytest.approx(radians(10), abs=1e-3)


def test_pressure_is_weight_over_area(lying):
    found = lying.summary["comfort"]
    weight = lying.design.person.mass * G
    assert found["mean_pressure_Pa"] * found["contact_area_m2"] == pytest.approx(weight, rel=1e-3)
    assert found["high_pressure_Pa"] > found["mean_pressure_Pa"]


def test_sideways_pressure_is_part_of_the_pressure_on_the_arms(lying):
    """A component is no longer than its vector: sideways never above the arm's own, that never above the worst part's."""
    found, contact = lying.summary["comfort"], lying.state[lying.model.elements["contact"]]
    arms = [lying.model.frame.flesh.index(f"{side} upper arm") for side in ("left", "right")]
    whole = np.linalg.norm(contact.by_segment[arms], axis=1) / contact.touched[arms]
    assert 0.2 * whole.max() < found["shoulder_pressure_Pa"] < whole.max() <= found["high_pressure_Pa"]
    force = found["shoulder_pressure_Pa"] * contact.touched[arms].mean()
    assert force == pytest.approx(np.abs(contact.by_segment[arms, 1]).mean(), rel=1e-3)
    assert force < found["shoulder_squeeze_N"]  # which also presses on the ribs


def test_worst_part_is_named_on_both_sides_when_they_are_even(lying):
    """The demonstration is symmetric: without the shoulders an arm presses most, on the right as much as on the left."""
    state, contact = lying.state, lying.model.elements["contact"]
    found = state[contact]
    force = found.by_segment.copy()
    force[lying.model.frame.flesh.index("shoulders")] = 0.0
    told = SimpleNamespace(result=lambda _: found._replace(by_segment=force))
    calm = dataclasses.replace(state, terms={**state.terms, id(contact): told})
    assert lying.summary["comfort"]["high_pressure_part"] == "shoulders"
    assert measure_comfort(lying.model, calm).high_pressure_part == "left and right upper arm"


def test_parts_of_the_trunk_turn_with_the_body(lying):
    """Feet lifted by an angle: rib cage, pelvis and head go down by it, and no bend between them changes."""
    before, after = lying.comfort, turn(lying, radians(3), 1)
    for name in ("rib_cage_pitch", "pelvis_pitch", "head_pitch"):
        assert getattr(after, name) - getattr(before, name) == pytest.approx(-radians(3), abs=1e-9)
    for name in ("trunk_bend", "neck_bend"):
        assert getattr(after, name) == pytest.approx(getattr(before, name), abs=1e-9)
    assert before.trunk_bend == pytest.approx(before.rib_cage_pitch - before.pelvis_pitch)


def test_gauge_carries_the_weight(lying):
    """Force square to the cloth over all of it, on squares however laid: no square shows more than its forces give."""
    contact = next(term for term in lying.model.structure.terms if isinstance(term, Contact))
    sample = contact.sample_pushes(lying.state.positions)
    weight = lying.design.person.mass * G
    assert -sample.push.sum(axis=(0, 1))[2] == pytest.approx(weight, rel=0.01)
    found = lying.comfort
    assert 0 < found.gauge_above < found.gauge_area
    assert found.gauge_area == pytest.approx(found.contact_area, rel=0.2)
    assert found.mean_pressure < found.gauge_pressure < 5 * found.high_pressure


def test_picture_and_report_tell_one_bend_across_the_shoulders(lying):
    """One name, one value: cut anew from the shape that is drawn."""
    shape = gather_shape(lying.model, lying.state, lying.design.workmanship.reductions)
    figure = Figure((4, 3))
    draw_section(figure.add_axes((0, 0, 1, 1)), shape, "both")
    (row,) = [line for line in list_comfort(lying.comfort) if line.title == "shoulder wrap angle"]
    told = f"{row.title}\n{show_quantity(row.value, 'angle')}"
    assert told in [text.get_text() for text in figure.axes[0].texts]


def test_highest_line_stress_is_told_for_both_sides_of_a_symmetric_design(lying):
    fabric = lying.summary["fabric"]
    place = fabric["highest_line_stress_at"]
    assert "either side" in fabric["highest_line_stress_place"]
    assert place["both_sides"]
    assert 0 < place["x_m"] < lying.design.hammock.body.length
    assert 0 < place["y_m"] < lying.design.hammock.body.head_width / 2
    assert place["corner"] in (None, "head left", "foot left")


def test_hold_is_the_slide_in_newtons(lying):
    found = lying.summary["comfort"]
    assert found["hold_N"] == pytest.approx(found["slide"] * lying.design.person.mass * G, rel=1e-3)


def test_knee_lifted_bends_it_and_lowered_overstretches_it(lying):
    """Law of cosines: knees lifted by h between thigh a and shank b bend them by about h/a + h/b."""
    positions = lying.state.positions.copy()
    nodes = [lying.model.nodes[f"person {side} knee"][0] for side in ("left", "right")]
    found = []
    for height in (0.05, -0.05):
        moved = positions.copy()
        moved[nodes, 2] += height
        found.append(measure_comfort(lying.model, dataclasses.replace(lying.state, positions=moved)).knee_flexion)
    stature = lying.design.person.stature
    thigh, shank = 0.245 * stature, 0.246 * stature  # Drillis and Contini (1966)
    assert found[0] - found[1] == pytest.approx(0.10 / thigh + 0.10 / shank, rel=0.03)
    assert found[0] > 0 > found[1]


def test_head_bar_gap_is_a_plain_distance(lying):
    """Bar and head lie in planes of symmetry: the gap is that of two points less the head's radius."""
    x = lying.state.positions
    corner = np.mean([x[lying.model.nodes[f"head {side} corner"][0]] for side in ("left", "right")], axis=0)
    head = x[lying.model.nodes["person head"][0]]
    radius = lying.model.frame.radii[lying.model.frame.flesh.index("head")].mean()
    gap = np.linalg.norm((head - corner)[[0, 2]]) - radius
    assert lying.summary["comfort"]["bar_to_face_m"] == pytest.approx(gap, abs=2e-3)


def test_angles_stay_below_a_half_turn(lying):
    found = lying.summary["comfort"]
    assert all(abs(found[measure.key]) < pi for measure in MEASURES if measure.key.endswith("_rad"))


def test_notes_tell_of_rolling_and_sliding(lying):
    """Raised at the head one slides to the feet; who rolls off the side is told where he or she ends."""
    side = dataclasses.replace(lying.design.person, posture=Posture(lie=LyingSide.SIDE))
    model = dataclasses.replace(lying.model, person=side)
    found = dataclasses.replace(lying.comfort, knee_flexion=0.0)
    assert note_lay(lying.model, found) == []
    (note,) = note_lay(model, found)
    assert "rolls off the side" in note
    (note,) = note_lay(model, dataclasses.replace(found, roll=radians(80), shoulder_roll=radians(84)))
    assert "stays on the side: hips at 80 deg, shoulders at 84" in note
    (note,) = note_lay(lying.model, dataclasses.replace(found, slide=-0.2))
    assert "20% of the weight" in note
    assert "sliding towards the feet. Lower the head end" in note
    assert note_lay(lying.model, None) == []


def test_knees_past_straight_are_told_with_what_to_try(lying):
    found = lying.comfort
    (note,) = note_lay(lying.model, dataclasses.replace(found, knee_flexion=radians(-3.4)))
    assert note.startswith("The knees are bent 3 deg backwards")
    assert all(words in note for words in ('knee_pad = "5 cm"', "move the foot strap"))
    assert note_lay(lying.model, dataclasses.replace(found, knee_flexion=radians(0.1))) == []


def test_hold_says_what_it_means():
    """Pulled toward the head one would slide toward the foot end, and the other way round."""
    low, high = (make_restraint_sentence(slide, 640 * slide) for slide in (-0.031, 0.031))
    assert low == "On slippery cloth the person slides towards the feet. Friction needed: 19.8 N, 3.1% of the weight."
    assert high == low.replace("the feet", "the head")
    assert "stays in place" in make_restraint_sentence(1e-4, 0.06)


@pytest.mark.slow
@pytest.mark.parametrize("share", [0.5, 2.0])
def test_how_stiff_flesh_is_taken_counts_for_pressures_and_hardly_for_forces(lying, share, monkeypatch):
    """Judgement, no source: what it changes is told. Softer flesh touches more cloth with less pressure."""
    monkeypatch.setattr(occupant, "FLESH_MODULUS", share * occupant.FLESH_MODULUS)
    other = solve_case(lying.design, load="lying", mesh_size=0.1, hot_spots=False).summary
    for key, force in lying.summary["forces"].items():
        if key.endswith("_N"):
            assert other["forces"][key] == pytest.approx(force, rel=5e-3), key
    before, after = lying.summary["comfort"], other["comfort"]
    pressed = after["mean_pressure_Pa"] / before["mean_pressure_Pa"]
    assert 1.05 < (pressed if share > 1 else 1 / pressed) < 1.4
    assert (after["contact_area_m2"] - before["contact_area_m2"]) * (1 - share) > 0
    assert after["trunk_pitch_rad"] == pytest.approx(before["trunk_pitch_rad"], abs=radians(1))
    assert after["shoulder_angle_rad"] == pytest.approx(before["shoulder_angle_rad"], abs=radians(5))


def test_a_measure_outside_its_aim_says_so_and_nothing_is_aimed_at_on_the_side(lying):
    knees = find_measure("knee_flexion_rad")
    straight = dataclasses.replace(lying.comfort, knee_flexion=radians(2.0), roll=0.0)
    assert knees.describe_aim(straight) == f"too low: {knees.better}"
    assert knees.describe_aim(dataclasses.replace(straight, knee_flexion=radians(8.0))) == knees.better
    assert knees.describe_aim(dataclasses.replace(straight, roll=radians(90.0))) == f"{knees.better}, on the back"
