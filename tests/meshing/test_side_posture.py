"""Somebody on the side: limbs bent, mass and bones kept, and where friction lets the body come to rest."""

from dataclasses import replace
from importlib.resources import files
from math import degrees, radians

import numpy as np
import pytest

from tautlay.cases import read_design
from tautlay.cases.judging.comfort.lay_notes import note_lay
from tautlay.cases.solving.solution import solve_equilibrium
from tautlay.hammock import LyingSide, Person, Posture, Sex
from tautlay.meshing.body_frame import make_frame
from tautlay.meshing.side_posture import HIPS, KNEES

MAN = Person(1.76, 80.5, Sex.MALE, 0.15)
BACK, SIDE = make_frame(MAN), make_frame(replace(MAN, posture=Posture(lie=LyingSide.SIDE)))


def find_angle(frame, *names):
    """Return the angle between two pieces of a chain of nodes."""
    a, b, c = (frame.places[frame.index(name)] for name in names)
    return np.arccos((b - a) @ (c - b) / np.linalg.norm(b - a) / np.linalg.norm(c - b))


@pytest.mark.parametrize("side", ["left", "right"])
def test_knees_and_hips_are_bent_and_bones_are_as_long_as_ever(side):
    assert find_angle(SIDE, f"{side} hip", f"{side} knee", f"{side} calf") == pytest.approx(
        find_angle(BACK, f"{side} hip", f"{side} knee", f"{side} calf") + KNEES, abs=radians(12)
    )
    for a, b in (("hip", "knee"), ("knee", "calf"), ("calf", "ankle"), ("shoulder", "elbow")):
        lengths = [
            np.linalg.norm(frame.places[frame.index(f"{side} {a}")] - frame.places[frame.index(f"{side} {b}")])
            for frame in (BACK, SIDE)
        ]
        assert lengths[0] == pytest.approx(lengths[1], rel=1e-12)
    knee, hip = (SIDE.places[SIDE.index(f"{side} {name}")] for name in ("knee", "hip"))
    assert np.arctan2(knee[2] - hip[2], knee[0] - hip[0]) == pytest.approx(HIPS, abs=radians(8))


def test_mass_is_kept():
    assert SIDE.masses.sum() == pytest.approx(MAN.mass, rel=1e-12)


def lie_on_side(name, *, angle=30.0):
    """Return a demonstration hung at an angle, with its person on the side, on a mesh of 8 cm."""
    design = read_design(str(files("tautlay.cases") / name))
    person = replace(design.person, posture=Posture(lie=LyingSide.SIDE), friction=0.35)
    hung = replace(design.hammock.suspension, hang_angle=radians(angle), tree_distance=None)
    hammock = replace(design.hammock, suspension=hung)
    return solve_equilibrium(
        replace(design, person=person, hammock=hammock), load="lying", mesh_size=0.08, hot_spots=False
    )


def test_clothing_keeps_a_person_on_the_side():
    """Friction 0.35: nothing holds across any more, and pressure and friction carry the weight, to a thousandth."""
    clothed = lie_on_side("larch_ridge.toml")
    assert 70 < degrees(clothed.comfort.roll) < 110
    assert not {"side hold", "hip hold", "shoulder hold"} & set(clothed.model.elements)
    weight = clothed.design.person.mass * 9.80665  # m/s2, NIST SP 811
    carried = clothed.state[clothed.model.elements["contact"]].force[2]
    carried -= clothed.state[clothed.model.elements["friction"]].force[:, 2].sum()
    assert -carried == pytest.approx(weight, rel=1e-3)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("name", "angle"),
    [
        ("larch_ridge.toml", 25.0), ("larch_ridge.toml", 30.0), ("heron_ford.toml", 25.0), ("heron_ford.toml", 30.0),
    ],
)  # fmt: skip
def test_clothed_person_stays_on_the_side(name, angle):
    """Hips between 70 and 110 degrees at friction 0.35, knees and hips still drawn up."""
    comfort = lie_on_side(name, angle=angle).comfort
    assert 70 < degrees(comfort.roll) < 110
    assert comfort.knee_flexion > radians(20)
    assert comfort.hip_joint > radians(20)


@pytest.mark.slow
@pytest.mark.parametrize("angle", [25.0, 30.0])
def test_who_rolls_off_the_side_all_the_same_is_told(angle):
    """In otter_creek the upper elbow finds no cloth below it, and the body rolls on."""
    rolled = lie_on_side("otter_creek.toml", angle=angle)
    assert degrees(rolled.comfort.roll) > 110
    assert any("rolls off the side" in note for note in note_lay(rolled.model, rolled.comfort))
