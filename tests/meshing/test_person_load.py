"""Segment masses and where their weight lies."""

import itertools
from dataclasses import replace

import numpy as np
import pytest

from tautlay.hammock import (
    Arc,
    Person,
    Sex,
    body_segments,
    draw_outline,
    example_hammock,
    find_narrowing,
    list_segments,
)
from tautlay.meshing import make_mesh, person_load, spread_person
from tautlay.solver import STANDARD_GRAVITY

BODY = example_hammock().body
WIDE = replace(BODY, head_width=1.4, foot_width=1.4, length=2.2)


def centre_height(person, **options):
    """Height of the centre of mass over the sole as a fraction of stature."""
    parts = list_segments(person, **options)
    moment = sum(part.mass * (part.start + part.centre * (part.end - part.start)) for part in parts)
    return 1 - moment / person.mass / person.stature


@pytest.mark.parametrize(("sex", "head", "thighs"), [(Sex.MALE, 0.0694, 0.2832), (Sex.FEMALE, 0.0668, 0.2956)])
def test_masses(sex, head, thighs):
    # De Leva, J. Biomechanics 29 (1996) 1223, Table 4; women's fractions sum to 0.9999.
    parts = {part.name: part.mass / 70.0 for part in list_segments(Person(1.7, 70.0, sex, 0.1))}
    assert len(parts) == 10
    assert sum(parts.values()) == pytest.approx(1.0, abs=1e-14)
    assert parts["head and neck"] == pytest.approx(head, rel=2e-4)
    assert parts["thighs"] == pytest.approx(thighs, rel=2e-4)


def test_trunk_is_the_sum_of_its_parts():
    # De Leva 1996, Table 4: whole trunk 43.46 % of a man, 42.57 % of a woman.
    for sex, whole in ((Sex.MALE, 0.4346), (Sex.FEMALE, 0.4257)):
        parts = list_segments(Person(1.7, 1.0, sex, 0.1))
        assert sum(part.mass for part in parts if "trunk" in part.name) == pytest.approx(whole, abs=1.5e-4)


@pytest.mark.parametrize(("sex", "height"), [(Sex.MALE, 0.554), (Sex.FEMALE, 0.553)])
def test_centre_of_the_whole_body(sex, height):
    # De Leva's segments stacked on the stature fractions of Drillis and Contini with the lowest neck vertebra
    # at shoulder height (0.818) give 0.554 / 0.553 of stature; textbook values 0.55-0.57 (from memory).
    person = Person(1.75, 75.0, sex, 0.1)
    assert centre_height(person, cervicale=0.818) == pytest.approx(height, abs=1.0e-3)
    # With the vertebra where the survey finds it (0.864 / 0.857), trunk and head lie 0.011 nearer the crown.
    assert centre_height(person) == pytest.approx(height, abs=0.012)
    assert 0.55 < centre_height(person) < 0.57


@pytest.mark.parametrize("sex", list(Sex))
def test_segments_tile_the_stature(sex):
    parts = list_segments(Person(1.8, 80.0, sex, 0.1))
    axial = [part for part in parts if part.name not in ("upper arms", "forearms", "hands")]
    assert axial[0].start == 0.0
    assert axial[-1].end == pytest.approx(1.8)
    for upper, lower in itertools.pairwise(axial):
        assert upper.end == pytest.approx(lower.start)
    for part in parts:
        assert 1 / 3 - 1e-12 <= part.centre <= 2 / 3
        assert all(outer > inner >= 0 for inner, outer in zip(part.inner, part.outer, strict=True))


def test_breadths_follow_the_survey():
    # ANSUR II (2014) means: bideltoid, waist and hip breadth at mean stature and mass, rounding of the fit 1 mm.
    for sex, stature, mass, wanted in (
        (Sex.MALE, 1.7562, 85.52, (0.5104, 0.3264, 0.3457)),
        (Sex.FEMALE, 1.6285, 67.76, (0.4503, 0.2999, 0.3538)),
    ):
        parts = {part.name: part for part in list_segments(Person(stature, mass, sex, 0.1))}
        found = (
            2 * parts["upper arms"].outer[0],
            2 * parts["middle trunk"].outer[1],
            2 * parts["thighs"].outer[0],
        )
        assert found == pytest.approx(wanted, abs=1e-3)


@pytest.mark.parametrize("sex", list(Sex))
@pytest.mark.parametrize("size", [0.2, 0.07, 0.02])
def test_weight_and_moments_are_exact_on_any_mesh(sex, size):
    person = Person(1.72, 83.0, sex, 0.13)
    mesh = make_mesh(draw_outline(WIDE), size)
    load = spread_person(person, mesh)
    down = -load.forces[:, 2]
    weight = 83.0 * 9.80665
    assert (load.forces[:, :2] == 0).all()
    assert down.min() > -1e-12 * weight  # every part presses down
    assert down.sum() == pytest.approx(weight, rel=1e-12)
    centre = 0.13 + (1 - centre_height(person)) * 1.72
    assert down @ mesh.points[:, 0] == pytest.approx(weight * centre, rel=1e-12)
    assert abs(down @ mesh.points[:, 1]) < 1e-11 * weight


def test_half_mesh_gets_the_left_half():
    person = Person(1.72, 83.0, Sex.MALE, 0.13)
    outline = draw_outline(WIDE)
    whole = make_mesh(outline, 0.06)
    left = spread_person(person, whole).forces[whole.points[:, 1] >= 0, 2]
    on_plane = whole.points[whole.points[:, 1] >= 0, 1] == 0
    half = spread_person(person, make_mesh(outline, 0.06, half=True)).forces[:, 2]
    np.testing.assert_allclose(half, np.where(on_plane, left / 2, left), rtol=1e-10, atol=1e-12)


def test_a_broad_person_is_drawn_in_to_a_narrow_cloth():
    narrow = replace(WIDE, head_width=0.6, foot_width=0.6, left_arc=Arc(0.12), right_arc=Arc(0.08))
    person = Person(1.72, 110.0, Sex.MALE, 0.2)
    ratio, where = find_narrowing(person, draw_outline(narrow))
    assert 0.4 < ratio < 0.9
    assert 0.3 < where < 1.9
    mesh = make_mesh(draw_outline(narrow), 0.05)
    down = -spread_person(person, mesh).forces[:, 2]
    assert down.sum() == pytest.approx(110.0 * 9.80665, rel=1e-12)
    centre = 0.2 + (1 - centre_height(person)) * 1.72
    assert down @ mesh.points[:, 0] / down.sum() == pytest.approx(centre, rel=1e-12)
    assert find_narrowing(person, draw_outline(WIDE))[0] == 1.0


@pytest.mark.parametrize("head_from_bar", [-0.01, 0.4])
def test_a_person_beyond_the_bars_is_refused(head_from_bar):
    mesh = make_mesh(draw_outline(BODY), 0.1)
    with pytest.raises(ValueError, match="beyond the body"):
        spread_person(Person(1.72, 83.0, Sex.MALE, head_from_bar), mesh)


# De Leva 1996, Table 4, m: stature of the sample, thigh, shank, upper arm, forearm.
LENGTHS = {
    Sex.MALE: (1.741, 0.4222, 0.4340, 0.2817, 0.2689),
    Sex.FEMALE: (1.735, 0.3685, 0.4323, 0.2751, 0.2643),
}


@pytest.mark.parametrize(("sex", "hip", "shift"), [(Sex.MALE, 0.517, 0.010), (Sex.FEMALE, 0.503, 0.014)])
def test_docstring_tells_what_de_levas_own_lengths_would_change(sex, hip, shift, monkeypatch):
    person = Person(1.75, 75.0, sex, 0.1)
    before = centre_height(person)
    table, (stature, *limbs) = body_segments._TABLES[sex], LENGTHS[sex]
    thigh, shank, upper_arm, forearm = (length / stature for length in limbs)
    joint = table.cervicale - sum(table.trunk_lengths) / stature
    assert joint == pytest.approx(hip, abs=5e-4)
    heights = {"_HIP": joint, "_KNEE": joint - thigh, "_ANKLE": joint - thigh - shank}
    for name, value in (heights | {"_UPPER_ARM": upper_arm, "_FOREARM": forearm}).items():
        monkeypatch.setattr(body_segments, name, value)
    assert 1.75 * (before - centre_height(person)) == pytest.approx(shift, abs=5e-4)
    assert f"{shift * 1000:.0f} mm" in body_segments.__doc__


def test_gravity_is_that_of_the_solver():
    assert STANDARD_GRAVITY == (0.0, 0.0, -person_load.GRAVITY)
