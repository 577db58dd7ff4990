"""What seams, cloth and lock stitches bear, against published numbers."""

from dataclasses import replace
from math import pi, radians

import pytest

from tautlay.making import (
    Fold,
    Reductions,
    SewnChannel,
    Stitch,
    Stitching,
    Strip,
    cut_fold,
    find_fold_cloth,
    find_lock_force,
    find_seam_cloth,
    find_seam_strength,
    find_strip_strength,
)
from tautlay.materials import Fabric, Thread, read_library

LBF, INCH = 4.4482216152605, 0.0254  # N, m: NIST SP 811 B.8
LIBRARY = read_library()
DRY = Reductions(wet=False)
COTTON = LIBRARY.find(Fabric, "cotton lawn 80 g/m2")
NYLON = LIBRARY.find(Fabric, "ripstop nylon 37 g/m2")


def make_sewn(fabric, *, rows=2, strip=None, folds=2, layers=1, efficiency=None):
    seam = Stitching(LIBRARY.find(Thread, "nylon size E"), 0.003, rows)
    fold = Fold(folds, seam, None if strip and folds == 2 else 0.02, None, strip, efficiency)
    return SewnChannel(fold, cut_fold(fold, layers, 0.002), fabric, layers)


def test_seam_bears_what_the_trade_reckons():
    """Sewing-thread trade formula, second hand: 10 stitches per inch x 4.0 lbf x 1.5 = 60 lbf per inch; chain 1.7."""
    thread = Thread("demo", "core-spun polyester", 40e-6, 4.0 * LBF)
    lock = find_seam_strength(Stitching(thread, INCH / 10), DRY)
    assert lock.value == pytest.approx(60 * LBF / INCH)
    assert (lock.dimension, lock.basis) == ("line_load", "second hand")
    chain = find_seam_strength(Stitching(thread, INCH / 10, 2, Stitch.CHAIN), DRY)
    assert chain.value == pytest.approx(2 * 68 * LBF / INCH)


def test_library_holds_published_strengths():
    """A-A-52109, 2.2, seen: nylon thread size E 9.0 lbf, B 6.0 lbf; MIL-C-7020H Table I, second hand: type I 42, II 50 lbf/in."""
    assert LIBRARY.find(Thread, "nylon size E").breaking_load == pytest.approx(9.0 * LBF)
    assert LIBRARY.find(Thread, "nylon size B").breaking_load == pytest.approx(6.0 * LBF)
    for name, strength in (("ripstop nylon 37 g/m2", 42), ("ripstop nylon 54 g/m2", 50)):
        fabric = LIBRARY.find(Fabric, name)
        for turn in (0.0, pi / 2):
            assert find_strip_strength(fabric, turn, DRY).value == pytest.approx(strength * LBF / INCH, rel=0.005)


def test_pull_between_warp_and_weft_bears_between_them_and_says_so():
    warp, oblique, weft = (find_strip_strength(COTTON, radians(angle), DRY) for angle in (0, 20, 90))
    assert (warp.value, weft.value) == (pytest.approx(6700), pytest.approx(3900))
    assert weft.value < oblique.value < warp.value
    assert (warp.basis, oblique.basis) == ("derived", "judgement")
    for angle in (20, 160, -20, 200):  # the cloth does not know which way is up
        assert find_strip_strength(COTTON, radians(angle), DRY).value == pytest.approx(oblique.value)


@pytest.mark.parametrize(
    ("rows", "efficiency", "share", "basis"),
    [(1, None, 0.5, "memory"), (2, None, 0.7, "judgement"), (3, None, 0.7, "judgement"), (2, 0.85, 0.85, "stated")],
)
def test_seam_keeps_a_share_of_the_cloth(rows, efficiency, share, basis):
    found = find_seam_cloth(make_sewn(NYLON, rows=rows, efficiency=efficiency), pi / 2, DRY)
    assert found.value == pytest.approx(share * NYLON.strength_weft)
    assert found.steps[-1].basis == basis


def test_weak_strip_tears_before_the_body():
    """Round the cord lies one layer of strip, and two legs of it come to the stitches."""
    weak = replace(COTTON, strength_warp=2000.0, strength_weft=1500.0)
    sewn = make_sewn(NYLON, strip=Strip(weak, 0.05, 0.014), folds=1)
    assert find_fold_cloth(sewn, pi / 2, DRY).value == pytest.approx(1500.0)
    assert find_seam_cloth(sewn, pi / 2, DRY).value == pytest.approx(0.7 * 2 * 1500.0)


def test_layers_round_the_cord_add_up():
    sewn = make_sewn(NYLON, strip=Strip(COTTON, 0.0889, 0.0381), layers=2)
    wanted = 2 * NYLON.strength_weft + 2 * COTTON.strength_weft
    assert find_fold_cloth(sewn, pi / 2, DRY).value == pytest.approx(wanted)
    assert find_seam_cloth(sewn, pi / 2, DRY).value == pytest.approx(0.7 * 2 * NYLON.strength_weft)


def test_wet_and_aged_count_for_thread_and_cloth():
    """US DoD, UFC 4-159-03, Table 6-8, and Tension Technology International, Table 1, upper end: nylon loses 15 % when
    wet; cotton and polyester are not named there.
    """
    worn = Reductions(wet=True, aged=0.5)
    seam = Stitching(LIBRARY.find(Thread, "nylon size E"), 0.003)
    polyester = Stitching(LIBRARY.find(Thread, "bonded polyester 70 tex"), 0.003)
    for stitching, share in ((seam, 0.85 * 0.5), (polyester, 0.5)):
        new = find_seam_strength(stitching, DRY).value
        assert find_seam_strength(stitching, worn).value == pytest.approx(share * new)
    for fabric, share in ((NYLON, 0.85 * 0.5), (COTTON, 0.5)):
        new = find_fold_cloth(make_sewn(fabric), 0.0, DRY).value
        assert find_fold_cloth(make_sewn(fabric), 0.0, worn).value == pytest.approx(share * new)


def test_laminate_has_no_usual_seam():
    laminate = LIBRARY.find(Fabric, "UHMWPE laminate 35 g/m2")
    with pytest.raises(ValueError, match="laminate"):
        find_seam_cloth(make_sewn(laminate), 0.0, DRY)
    assert find_seam_cloth(make_sewn(laminate, efficiency=0.4), 0.0, DRY).value == pytest.approx(0.4 * 17e3)


def test_lock_holds_by_its_length():
    stitching = Stitching(LIBRARY.find(Thread, "nylon size E"), 0.0025, rows=2)
    # 16 stitches a row, two rows, 9.0 lbf, factor 1.5
    assert find_lock_force(stitching, 0.04, DRY).value == pytest.approx(2 * 16 * 9.0 * LBF * 1.5)
