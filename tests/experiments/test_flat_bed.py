"""A lying person on a flat bed puts the weight where measured people put it; what was measured is in ``_flat_bed``."""

import pytest

from ._flat_bed import CENTRE, FARTHER, MAN, SHARES, G, lay_flat


@pytest.fixture(scope="module")
def bed():
    return lay_flat()


def test_bed_carries_the_weight(bed):
    assert bed[0].sum() == pytest.approx(MAN.mass * G, rel=1e-4)


@pytest.mark.parametrize("place", SHARES)
def test_share_of_the_load_is_that_of_measured_men(bed, place):
    load, along = bed
    measured, scatter = SHARES[place]
    off = (load[along < place].sum() / load.sum() - measured) / scatter
    assert abs(off) < FARTHER.get(place, (1.5, ""))[0]


def test_centre_of_the_load_and_the_head_are_those_of_measured_men(bed):
    """Centre 0.588 +- 0.018; head 5.6 +- 1.5 %, of which the neck's load here is part."""
    load, along = bed
    assert (load * along).sum() / load.sum() == pytest.approx(CENTRE[0], abs=CENTRE[1])
    assert load[along > 0.95].sum() / load.sum() == pytest.approx(0.056, abs=1.5 * 0.015)
