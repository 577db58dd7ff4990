"""Records: hand values of sections, refusals, pickling."""

import pickle
from dataclasses import FrozenInstanceError, replace
from math import isclose, pi

import pytest

from tautlay.materials import CATEGORIES, Fabric, Provenance, RodSection, Tube, read_library

CLOTH = Fabric("demo", "ripstop nylon", 0.037, 30e3, 25e3, 0.15, 54.0, 7.4e3, 7.4e3)


def test_area_and_stiffness_of_a_tube_by_hand():
    # 16 x 1 mm: A = pi (16^2 - 14^2) / 4 = 15 pi mm2; I = pi (16^4 - 14^4) / 64 = 27120 pi / 64 mm4
    tube = Tube("demo", "6061-T6", 0.016, 0.001, 69.6e9, 2713.0, 234e6)
    assert isclose(tube.area, 15e-6 * pi, rel_tol=1e-12)
    assert isclose(tube.second_moment, 27120e-12 * pi / 64, rel_tol=1e-12)
    assert isclose(tube.ei, 92.655, rel_tol=1e-4)
    assert isclose(tube.ea, 69.6e9 * 15e-6 * pi, rel_tol=1e-12)
    assert isclose(tube.linear_mass, 0.12785, rel_tol=1e-4)


def test_area_and_stiffness_of_a_rod_by_hand():
    # 1/2 in: A = 126.68 mm2; I = pi 12.7^4 / 64 = 1276.98 mm4
    rod = RodSection("demo", "yellow birch", 0.0127, 13.86e9, 694.0, 39.4e6)
    assert isclose(rod.area, 126.677e-6, rel_tol=1e-5)
    assert isclose(rod.ei, 13.86e9 * 1276.98e-12, rel_tol=1e-5)
    assert isclose(rod.linear_mass, 0.087914, rel_tol=1e-4)


def test_tube_with_wall_to_the_middle_is_a_rod():
    tube = Tube("demo", "alloy", 0.012, 0.006, 70e9, 2700.0, 240e6)
    rod = RodSection("demo", "alloy", 0.012, 70e9, 2700.0, 240e6)
    assert isclose(tube.ei, rod.ei, rel_tol=1e-12)
    assert isclose(tube.linear_mass, rod.linear_mass, rel_tol=1e-12)


def test_wall_thicker_than_the_radius_is_refused():
    with pytest.raises(ValueError, match=r'tube "demo": wall = 0\.009 m must not exceed the radius 0\.008 m'):
        Tube("demo", "alloy", 0.016, 0.009, 70e9, 2700.0, 240e6)


@pytest.mark.parametrize("value", [0.0, -1.0, float("nan"), float("inf")])
def test_number_that_no_cloth_has_is_refused(value):
    with pytest.raises(ValueError, match=r"warp = .* must be a positive finite number"):
        replace(CLOTH, warp=value)


def test_poisson_ratio_that_gives_energy_back_is_refused():
    assert replace(CLOTH, poisson=0.0).poisson == 0.0
    assert replace(CLOTH, poisson=1.09).poisson == 1.09  # below sqrt(30/25) = 1.0954
    with pytest.raises(ValueError, match="must stay below"):
        replace(CLOTH, poisson=1.1)


def test_elongation_may_be_unknown():
    assert CLOTH.elongation is None


def test_record_is_frozen_hashable_and_compared_by_its_numbers():
    with pytest.raises(FrozenInstanceError):
        CLOTH.warp = 1.0
    sourced = replace(CLOTH, provenance={"warp": Provenance("30 N/mm", "judgement", "memory")})
    assert sourced == CLOTH
    assert hash(sourced) == hash(CLOTH)
    assert replace(CLOTH, warp=31e3) != CLOTH
    with pytest.raises(TypeError):
        sourced.provenance["weft"] = None


@pytest.mark.parametrize("category", CATEGORIES)
def test_every_record_survives_pickling_with_its_provenance(category):
    for material in read_library().select(category):
        copy = pickle.loads(pickle.dumps(material))
        assert copy == material
        assert copy.provenance == material.provenance
        with pytest.raises(TypeError):
            copy.provenance["name"] = None
