"""What decides where a loaded hammock hangs, and how each of it scatters before anything is measured."""

from collections.abc import Iterator

from ....hammock.arrays import FloatArray
from ...design import Design
from ...judging.sensitivity.range_input import Input, MaterialInput, list_mechanical
from ..scatter.distribution import Distribution, choose_distribution
from ..scatter.hang_input import HangInput, list_sizes, list_suspension, make_hang_input
from .bag_places import BagLayout, list_bag_laws

TAPE = (0.005, "engineering judgement: 90 of 100 within 5 mm, measured with a tape when it was hung")

Laws = dict[Input, Distribution]


def list_laws(design: Design, layout: BagLayout, measured_straps: tuple[str, ...] = ("head", "foot")) -> Laws:
    """Return each input with its law.

    Stiffnesses scatter within the ranges of their materials, lengths and widths as they are cut, sewn and knotted (as
    for ``--samples``), tree distance and measured strap heights as a tape tells them.

    Parameters
    ----------
    design : Design
        Between trees at a distance.
    layout : BagLayout
        How the bags lie on it.
    measured_straps : tuple of str
        Ends at which the strap's height was measured.

    Returns
    -------
    dict of Input to Distribution
        A stiffness without a range is missing: it counts as exact.
    """
    stiff: Laws = {each: choose_distribution(each) for each in list_stiff(design)}
    hung = [*list_sizes(design), *_list_hang(design, measured_straps)]
    return {**stiff, **{each: each.distribution for each in hung}, **list_bag_laws(layout)}


def take_values(laws: Laws, scores: FloatArray) -> dict[Input, float]:
    """Return the values that belong to scores (inputs,)."""
    return {source: float(law.take(scores[place : place + 1])[0]) for place, (source, law) in enumerate(laws.items())}


def list_stiff(design: Design) -> tuple[MaterialInput, ...]:
    """Return the stiffnesses of which a range is known."""
    return tuple(each for each in list_mechanical(design.hammock) if each.range is not None)


def list_unknown(design: Design) -> tuple[Input, ...]:
    """Return the stiffnesses of which no range is known."""
    return tuple(each for each in list_mechanical(design.hammock) if each.range is None)


def _list_hang(design: Design, measured_straps: tuple[str, ...]) -> Iterator[HangInput]:
    """Yield tree distance and what is tied at each end; straps that were measured scatter as a tape tells them."""
    distance = design.hammock.suspension.tree_distance
    assert distance is not None  # hung between trees
    yield make_hang_input("tree distance", distance, TAPE, lambda varied, value: varied.hang_between(value))
    for each in list_suspension(design):
        end, _, rest = each.title.partition(" ")
        if rest == "strap height" and end in measured_straps:
            yield make_hang_input(each.title, each.value, TAPE, each.put)
        else:
            yield each
