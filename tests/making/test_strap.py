"""Straps round trunks: lengths and forces by geometry and statics."""

from math import acos, cos, pi, sin, sqrt

import pytest

from tautlay.making import Hitch, Tree, TreeStrap
from tautlay.materials import Webbing, read_library

WEBBING = read_library().find(Webbing, "polyester 1 in, 25 g/m")


def strap(length, hitch=Hitch.BASKET):
    return TreeStrap(WEBBING, length, hitch)


@pytest.mark.parametrize(("length", "girth"), [(1.2, 1.1), (1.5, 1.1), (3.0, 0.9), (6.0, 2.0)])
def test_basket_is_as_long_as_tangents_and_arc(length, girth):
    """Two tangents and the arc behind the trunk, 2 pi - 2 acos(r/c) of it: plane geometry."""
    wrap, radius = strap(length).wrap(girth), girth / (2 * pi)
    middle = wrap.reach + radius
    arc = radius * (2 * pi - 2 * acos(radius / middle))
    assert 2 * sqrt(middle**2 - radius**2) + arc == pytest.approx(length, abs=1e-9)
    assert sin(wrap.spread) == pytest.approx(radius / middle)


def test_strands_of_a_basket_carry_the_pull_together():
    """2 S cos(spread) = T: statics."""
    wrap = strap(1.5).wrap(1.1)
    assert 2 * wrap.share * cos(wrap.spread) == pytest.approx(1.0)
    assert strap(20.0).wrap(0.5).share == pytest.approx(0.5, abs=1e-3)
    assert strap(1.12).wrap(1.1).share > wrap.share  # a short basket spreads wide


def test_basket_gives_as_its_strands_do():
    """A small step of the ring along the line stretches a strand by the step times cos(spread): virtual work."""
    wrap, step = strap(1.5).wrap(1.1), 1e-6
    across, along = wrap.strand * sin(wrap.spread), wrap.strand * cos(wrap.spread)
    stretch = sqrt(across**2 + (along + step) ** 2) - wrap.strand
    pull = 2 * stretch / wrap.strand * cos(wrap.spread)  # of EA
    assert step / pull == pytest.approx(wrap.flexibility, rel=1e-4)


def test_choked_strap_reaches_what_the_trunk_leaves():
    wrap = strap(1.5, Hitch.GIRTH).wrap(1.1)
    assert (wrap.reach, wrap.share, wrap.flexibility) == (pytest.approx(0.4), 1.0, pytest.approx(0.4))


def test_strap_that_does_not_go_round_is_refused():
    with pytest.raises(ValueError, match="round the trunk"):
        strap(1.0).wrap(1.1)


def test_trunk_of_the_park_rule():
    """12 in thick is 305 mm: Three Rivers Park District; Hutchinson MN; City of Madison."""
    assert Tree(pi * 12 * 0.0254).diameter == pytest.approx(0.305, abs=1e-3)
