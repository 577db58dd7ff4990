"""Corner plates by hand, and which way a weak one gives first."""

from dataclasses import replace

import pytest

from tautlay.making import CornerPlate, TipLoop
from tautlay.making.corner import find_bearing, find_net_section, find_tear_out
from tautlay.materials import Plate, read_library

SHEET = read_library().find(Plate, "6061-T6 sheet 2 mm")
CORNER = CornerPlate(SHEET, 0.03, 0.01, 0.015, 0.006, 0.012, 0.001)
KSI = 6.894757293168e6  # NIST SP 811 B.8


# MIL-HDBK-5J, 6061-T6 sheet, from memory: Ftu 42, Fsu 27, Fbru 67 ksi at 1.5 diameters from the edge.
def test_plate_is_that_of_the_handbook():
    found = (SHEET.tensile_strength, SHEET.shear_strength, SHEET.bearing_strength)
    assert [value / KSI for value in found] == pytest.approx([42, 27, 67])
    assert SHEET.shear_strength < SHEET.tensile_strength < SHEET.bearing_strength


def test_plate_by_hand():
    """(w - d) t Ftu, b t Fbru, 2 t (e - d/2) Fsu: handbooks of pinned joints, from memory."""
    assert find_net_section(CORNER, CORNER.cord).value == pytest.approx(0.024 * 0.002 * 42 * KSI)
    assert find_bearing(CORNER, 0.002).value == pytest.approx(0.002 * 0.002 * 67 * KSI)
    assert find_tear_out(CORNER, CORNER.tip).value == pytest.approx(2 * 0.002 * (0.015 - 0.005) * 27 * KSI)


def test_more_plate_bears_more():
    wide, deep = replace(CORNER, width=0.04), replace(CORNER, cord_edge=0.02)
    assert find_net_section(wide, wide.cord).value > find_net_section(CORNER, CORNER.cord).value
    assert find_tear_out(deep, deep.cord).value > find_tear_out(CORNER, CORNER.cord).value
    small = replace(CORNER, cord_hole=0.004)
    assert find_net_section(small, small.cord).value > find_net_section(CORNER, CORNER.cord).value


def test_hole_over_the_edge_is_refused():
    over = replace(CORNER, cord_edge=0.003)
    with pytest.raises(ValueError, match="cord hole"):
        find_tear_out(over, over.cord)


def test_rim_bends_the_cord_no_wider_than_the_plate_is_thick():
    assert replace(CORNER, edge_radius=0.0002).bend_diameter == pytest.approx(0.0004)
    assert replace(CORNER, edge_radius=0.02).bend_diameter == pytest.approx(0.002)
    assert TipLoop(0.012).bend_diameter == 0.012
