"""How much thread, cord and cloth is used, and what a unit of each material weighs."""

import pytest

from tautlay.making import (
    CordTermination,
    Stitch,
    Stitching,
    TerminationType,
    find_unit_mass,
    measure_end,
    measure_hem,
    measure_thread,
)
from tautlay.materials import CATEGORIES, Plate, RodSection, Thread, read_library

LIBRARY = read_library()


@pytest.mark.parametrize(("stitch", "least", "most"), [(Stitch.LOCK, 2.5, 3.0), (Stitch.CHAIN, 4.8, 6.0)])
def test_thread_is_a_multiple_of_its_rows(stitch, least, most):
    """Trade rule, second hand: 2.5 to 3 times the seam in a lock stitch; a chain stitch that was unpicked took 5.4."""
    used = measure_thread(Stitching(LIBRARY.find(Thread, "nylon size E"), 0.003, 2, stitch), 1.5)
    assert used.range == pytest.approx((least * 3.0, most * 3.0))
    assert used.range[0] < used.value < used.range[1]


def test_lock_stitch_takes_at_least_its_geometry():
    """Needle and bobbin lie along the seam and cross half of it each: 2 + 2 t/s, here 0.8 mm of cloth and 3 mm."""
    used = measure_thread(Stitching(LIBRARY.find(Thread, "nylon size E"), 0.003), 1.0)
    assert used.range[0] <= 2 + 2 * 0.8 / 3 <= used.range[1]


@pytest.mark.parametrize(
    ("ending", "more"),
    [
        (CordTermination(TerminationType.SPLICE, bury=0.15, tail=0.03), 0.18),
        (CordTermination(TerminationType.ADJUSTABLE, bury=0.30), 0.30),
        (CordTermination(TerminationType.SEWN, lap=0.04, tail=0.02), 0.06),
        (CordTermination(TerminationType.BOWLINE, tail=0.25), 0.25),
        (CordTermination(TerminationType.RUNS_ON), 0.0),
    ],
)
def test_ends_take_what_is_told_of_them(ending, more):
    assert measure_end(ending)[0] == pytest.approx(more)


def test_hems_by_hand():
    assert measure_hem(None, 2.0, 2).value == pytest.approx(2.0 * 0.03 * 2)


def test_every_material_of_the_library_can_be_weighed():
    for category in CATEGORIES:
        for name in LIBRARY.names(category):
            unit = find_unit_mass(LIBRARY.find(CATEGORIES[category], name))
            assert 0 < unit.least <= unit.value * (1 + 1e-12), name
            assert unit.value <= unit.most * (1 + 1e-12), name


def test_sheet_and_rod_by_hand():
    # 1/8 in of 0.098 lb/in3; 694 kg/m3 in a half-inch rod: NIST SP 811 B.8
    sheet = find_unit_mass(LIBRARY.find(Plate, "6061-T6 sheet 1/8 in"))
    assert sheet.value == pytest.approx(0.0254 / 8 * 0.098 * 0.45359237 / 0.0254**3)
    rod = find_unit_mass(LIBRARY.find(RodSection, "yellow birch dowel 1/2 in"))
    assert rod.least / rod.value == pytest.approx(590 / 694)
