"""Channels counted and measured on their own geometry."""

from math import pi

import pytest

from tautlay.making import Fold, Stitching, Strip, cut_fold, flatten_cord
from tautlay.materials import Fabric, Thread, read_library

INCH = 0.0254  # m, NIST SP 811 B.8
LIBRARY = read_library()
ROWS = Stitching(LIBRARY.find(Thread, "nylon size E"), 0.003, rows=2)
COATED = LIBRARY.find(Fabric, "coated ripstop nylon 45 g/m2")
BODY = LIBRARY.find(Fabric, "ripstop nylon 54 g/m2")
CORD = 0.0028

ONCE = Fold(1, ROWS, finished_width=0.02)
TWICE = Fold(2, ROWS, finished_width=0.02)
BOUND = Fold(1, ROWS, finished_width=0.02, strip=Strip(COATED, width=0.05, inset=0.013))
ROLLED = Fold(2, ROWS, strip=Strip(COATED, width=3.5 * INCH, inset=1.5 * INCH))


def test_light_strip_rolled_over_the_edge_gives_the_common_channel():
    """Common practice, no source: 3 1/2 in strip sewn 1 1/2 in from the edge, channel 3/4 in, about half for stitching."""
    section = cut_fold(ROLLED, 1, CORD)
    assert section.width == pytest.approx(0.75 * INCH)
    assert sorted(section.pulled) == ["body", "strip", "strip"]
    assert sorted(section.sewn) == ["body"] * 2 + ["strip"] * 4
    assert ROLLED.lap == pytest.approx(0.5 * INCH)  # past its own seam
    assert section.body_allowance == pytest.approx(0.75 * INCH)
    half = Fold(2, ROWS, stitching_width=0.375 * INCH, strip=ROLLED.strip)
    assert half.width - half.find_room(CORD) >= flatten_cord(2 * CORD)  # a cord spliced back through itself passes too
    thickest = 0.375 * INCH * 2 / pi  # of which the half that is left takes the girth
    assert ROLLED.find_room(thickest) == pytest.approx(0.375 * INCH)


@pytest.mark.parametrize(
    ("fold", "layers", "pulled", "sewn"),
    [
        (ONCE, 1, ["body"], ["body"] * 2),
        (ONCE, 3, ["body"] * 3, ["body"] * 6),
        (TWICE, 1, ["body"], ["body"] * 3),
        (TWICE, 2, ["body"] * 2, ["body"] * 6),
        (BOUND, 1, ["strip"], ["body", "strip", "strip"]),
        (BOUND, 2, ["strip"], ["body", "body", "strip", "strip"]),
        (ROLLED, 2, ["body"] * 2 + ["strip"] * 2, ["body"] * 4 + ["strip"] * 4),
    ],
)
@pytest.mark.parametrize("cord", [0.0015, 0.0028, 0.004])
def test_layers_are_counted_on_the_section(fold, layers, pulled, sewn, cord):
    section = cut_fold(fold, layers, cord)
    assert sorted(section.pulled) == pulled
    assert sorted(section.sewn) == sewn


@pytest.mark.parametrize(("fold", "cord"), [(ONCE, 0.002), (TWICE, 0.004), (BOUND, 0.0028), (ROLLED, 0.006)])
def test_cord_has_its_girth_in_the_pocket_and_rows_lie_beside_it(fold, cord):
    section = cut_fold(fold, 1, cord)
    pocket = section.width - section.room
    assert 2 * pocket >= pi * cord - 1e-12
    assert all(pocket < row < section.width for row in section.rows)
    assert section.cord[0] + cord / 2 <= pocket + 1e-9  # the needle does not meet the cord
    assert section.cord[0] - cord / 2 >= -1e-9


def test_layers_do_not_run_through_the_cord():
    section = cut_fold(ROLLED, 1, CORD)
    for layer in section.layers:
        for x, z in layer.path:
            assert (x - section.cord[0]) ** 2 + z**2 >= (CORD / 2) ** 2


def test_cloth_of_the_channel_is_what_is_cut():
    """The strip's layers lie on the whole strip; the body folds over by the widths of the fold."""
    for fold in (BOUND, ROLLED):
        (strip,) = (layer for layer in cut_fold(fold, 1, CORD).layers if layer.cloth == "strip")
        assert strip.length == pytest.approx(fold.strip.width)
    once, twice = cut_fold(ONCE, 1, CORD), cut_fold(TWICE, 1, CORD)
    assert once.body_allowance == pytest.approx(0.02)
    assert twice.body_allowance == pytest.approx(0.02 + twice.room)  # the raw edge is turned in under all rows
    assert cut_fold(BOUND, 1, CORD).body_allowance == pytest.approx(0.013 - 0.02)  # it ends short of the cord
    mass = cut_fold(ROLLED, 2, CORD).find_mass(BODY, COATED)
    assert mass == pytest.approx(2 * 0.75 * INCH * BODY.areal_mass + 3.5 * INCH * COATED.areal_mass)


def test_fold_that_cannot_be_is_refused():
    with pytest.raises(ValueError, match="must be 1 or 2"):
        Fold(3, ROWS, finished_width=0.02)
    with pytest.raises(ValueError, match="finished_width is missing"):
        Fold(1, ROWS, strip=Strip(COATED, 0.05, 0.013))
    with pytest.raises(ValueError, match="no width for stitches"):
        cut_fold(ONCE, 1, 0.02)
    with pytest.raises(ValueError, match="too narrow"):
        cut_fold(Fold(2, ROWS, strip=Strip(COATED, 2.9 * INCH, 1.5 * INCH)), 1, CORD)
