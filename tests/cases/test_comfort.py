"""Measures of comfort against what plain geometry says of a turned or moved body."""

import dataclasses
from importlib.resources import files
from math import pi, radians

import numpy as np
import pytest

from tautlay.cases import read_design, solve_case
from tautlay.cases.comfort import describe_comfort, note_lay
from tautlay.cases.measures import MEASURES
from tautlay.meshing import Lie, Posture

G = 9.80665  # m/s2, NIST SP 811


@pytest.fixture(scope="module")
def lying():
    design = read_design(str(files("tautlay.cases") / "larch_ridge.toml"))
    return solve_case(design, load="lying", mesh_size=0.1)


def turn(result, angle, axis):
    """Return the measures with everything turned rigidly: axis 1 lifts the feet, axis 0 rolls to the right."""
    cos, sin = np.cos(angle), np.sin(angle)
    rotation = np.eye(3)
    i, j = (0, 2) if axis == 1 else (1, 2)
    rotation[i, i], rotation[i, j], rotation[j, i], rotation[j, j] = cos, -sin, sin, cos
    return describe_comfort(
        result.model, dataclasses.replace(result.state, positions=result.state.positions @ rotation.T)
    )


def test_all_measures_are_in_the_summary(lying):
    found = lying.summary["comfort"]
    assert [measure.key for measure in MEASURES] == [key for key in found if key != "high_pressure_part"]
    assert found["high_pressure_part"] in lying.model.frame.flesh
    for measure in MEASURES:
        assert all((measure.formula, measure.better, measure.sure))


@pytest.mark.parametrize("degrees", [-4, 3])
def test_pitches_turn_with_the_body(lying, degrees):
    """Feet lifted by an angle: trunk pitch falls and leg pitch rises by it; bends stay."""
    before, after = lying.summary["comfort"], turn(lying, radians(degrees), 1)
    assert after["trunk_pitch_rad"] - before["trunk_pitch_rad"] == pytest.approx(-radians(degrees), abs=1e-9)
    assert after["leg_pitch_rad"] - before["leg_pitch_rad"] == pytest.approx(radians(degrees), abs=1e-9)
    for key in ("hip_angle_rad", "knee_flexion_rad", "bar_to_face_m"):
        assert after[key] == pytest.approx(before[key], abs=1e-9)


def test_roll_turns_with_the_body(lying):
    assert lying.summary["comfort"]["roll_rad"] == pytest.approx(0, abs=1e-3)
    assert turn(lying, radians(10), 0)["roll_rad"] == pytest.approx(radians(10), abs=1e-3)


def test_pressure_is_weight_over_area(lying):
    found = lying.summary["comfort"]
    weight = lying.design.person.mass * G
    assert found["mean_pressure_Pa"] * found["contact_area_m2"] == pytest.approx(weight, rel=1e-3)
    assert found["high_pressure_Pa"] > found["mean_pressure_Pa"]
    arm = lying.model.frame.flesh.index("left upper arm")
    radius = lying.model.frame.radii[arm].mean()
    length = found["shoulder_squeeze_N"] / (found["shoulder_pressure_Pa"] * 2 * radius)
    assert length == pytest.approx(0.186 * lying.design.person.stature, rel=0.02)  # Drillis and Contini (1966)


def test_knee_lifted_bends_it_and_lowered_overstretches_it(lying):
    """Law of cosines: knees lifted by h between thigh a and shank b bend them by about h/a + h/b."""
    positions = lying.state.positions.copy()
    nodes = [lying.model.nodes[f"person {side} knee"][0] for side in ("left", "right")]
    found = []
    for height in (0.05, -0.05):
        moved = positions.copy()
        moved[nodes, 2] += height
        found.append(
            describe_comfort(lying.model, dataclasses.replace(lying.state, positions=moved))["knee_flexion_rad"]
        )
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
    """Raised at the head one slides to the feet; who does not stay on the side is told where he or she ends."""
    side = dataclasses.replace(lying.design.person, posture=Posture(lie=Lie.SIDE))
    model = dataclasses.replace(lying.model, person=side)
    found = dict(lying.summary["comfort"])
    assert note_lay(lying.model, found) == []
    (note,) = note_lay(model, found)
    assert "does not stay on the side" in note
    assert note_lay(model, found | {"roll_rad": radians(80)}) == []
    (note,) = note_lay(lying.model, found | {"slide": -0.2})
    assert "20% of the weight" in note
    assert "sliding towards the feet: lower the head end" in note
    assert note_lay(lying.model, {}) == []
