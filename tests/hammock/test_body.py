"""The person as sizes and as a frame, against the survey and the segment tables they come from."""

from statistics import NormalDist

import numpy as np
import pytest

from tautlay.hammock import Arms, Person, Posture, Sex, find_percentile, list_segments, measure_body
from tautlay.meshing import make_frame

# ANSUR II (NATICK/TR-15/007, 2014), worked out from the public data: mean and regression residual, m
MEANS = {
    Sex.MALE: {"shoulder breadth": (0.5104, 0.0149), "hip breadth": (0.3457, 0.0128), "chest depth": (0.2538, 0.0124),
               "waist depth": (0.2378, 0.0166), "buttock depth": (0.2458, 0.0111), "chest breadth": (0.2894, 0.0129),
               "sitting hip breadth": (0.3793, 0.0141)},
    Sex.FEMALE: {"shoulder breadth": (0.4503, 0.0142), "hip breadth": (0.3538, 0.0149), "chest depth": (0.2474, 0.0152),
                 "waist depth": (0.2130, 0.0166), "buttock depth": (0.2329, 0.0115), "chest breadth": (0.2693, 0.0131),
                 "sitting hip breadth": (0.3990, 0.0180)},
}  # fmt: skip
AVERAGE = {Sex.MALE: (1.7562, 85.52), Sex.FEMALE: (1.6285, 67.76)}
PEOPLE = [(sex, percentile) for sex in Sex for percentile in (2, 50, 98)]


@pytest.mark.parametrize(("sex", "percentile", "stature", "mass"), [
    (Sex.MALE, 1, 1.6016, 57.8), (Sex.MALE, 50, 1.755, 84.6), (Sex.MALE, 95, 1.87, 110.69),
    (Sex.FEMALE, 5, 1.525, 51.3), (Sex.FEMALE, 75, 1.672, 74.57), (Sex.FEMALE, 99, 1.7776, 97.45),
])  # fmt: skip
def test_percentiles_of_the_survey(sex, percentile, stature, mass):
    assert find_percentile(sex, percentile) == (pytest.approx(stature), pytest.approx(mass))


@pytest.mark.parametrize("sex", Sex)
def test_percentiles_between_those_of_the_survey(sex):
    """Rising, and near a normal distribution of stature (mean and deviation of the survey) to 1 cm."""
    rows = [find_percentile(sex, percentile) for percentile in np.linspace(1, 99, 197)]
    assert (np.diff(rows, axis=0) > 0).all()
    mean, deviation = (1.7562, 0.0686) if sex is Sex.MALE else (1.6285, 0.0642)
    normal = NormalDist(mean, deviation)
    for percentile in (10, 30, 60, 90):
        assert find_percentile(sex, percentile)[0] == pytest.approx(normal.inv_cdf(percentile / 100), abs=0.01)


@pytest.mark.parametrize("percentile", [0, 0.5, 99.5, 150])
def test_percentiles_beyond_the_survey_are_refused(percentile):
    with pytest.raises(ValueError, match="between 1 and 99"):
        find_percentile(Sex.MALE, percentile)


@pytest.mark.parametrize("sex", Sex)
def test_average_person_has_average_sizes(sex):
    """Least squares pass through the means: 1 mm, far inside the residuals of 11 to 17 mm."""
    sizes = measure_body(sex, *AVERAGE[sex])
    for name, (mean, residual) in MEANS[sex].items():
        assert sizes[name] == pytest.approx(mean, abs=1e-3)
        assert residual > 0.01


def make(sex, percentile, arms=Arms.SIDES):
    stature, mass = find_percentile(sex, percentile)
    return Person(stature, mass, sex, 0.15, Posture(arms=arms))


@pytest.mark.parametrize(("sex", "percentile"), PEOPLE)
def test_frame_weighs_what_the_person_weighs_at_the_same_centre(sex, percentile):
    """All mass, and the centre of mass of the segment model to 2 mm (the heels carry the feet)."""
    person = make(sex, percentile)
    frame, segments = make_frame(person), list_segments(person)
    assert frame.masses.sum() == pytest.approx(person.mass, rel=1e-12)
    centre = sum(s.mass * (s.start + s.centre * (s.end - s.start)) for s in segments) / person.mass
    assert frame.masses @ frame.places[:, 0] / person.mass == pytest.approx(centre, abs=2e-3)
    height = 1 - centre / person.stature
    assert 0.53 < height < 0.58  # textbook 0.55 to 0.57, from memory


@pytest.mark.parametrize(("sex", "percentile"), PEOPLE)
def test_flesh_is_as_broad_as_the_person_and_lies_flat(sex, percentile):
    """Shoulders and hips as the survey has them; all flesh touches the bed or lies above it; mirror images."""
    person = make(sex, percentile)
    frame, sizes = make_frame(person), measure_body(sex, person.stature, person.mass)
    ends = frame.places[frame.capsules]
    for part, name in (("shoulders", "shoulder breadth"), ("hips", "hip breadth")):
        k = frame.flesh.index(part)
        assert 2 * (ends[k, 0, 1] + frame.radii[k, 0]) == pytest.approx(sizes[name], abs=1e-9)
    flesh = [row for row, name in enumerate(frame.flesh) if name != "pillow"]
    assert (ends[:, :, 2] - frame.radii)[flesh].min() >= -1e-9
    assert 0.02 < frame.radii.min() < frame.radii.max() < 0.2
    for name, place in zip(frame.names, frame.places, strict=True):
        twin = frame.places[frame.index(name.replace("left", "*").replace("right", "left").replace("*", "right"))]
        np.testing.assert_allclose(place * [1, -1, 1], twin, atol=1e-12)


def test_folded_arms_bear_on_the_belly():
    sides, folded = make_frame(make(Sex.MALE, 50)), make_frame(make(Sex.MALE, 50, Arms.FOLDED))
    assert "left hand" in sides.names
    assert "left hand" not in folded.names
    assert folded.masses[folded.index("left waist")] > sides.masses[sides.index("left waist")]
    assert folded.masses.sum() == pytest.approx(sides.masses.sum())
