"""The hammock that is weighed."""

from typing import Literal, NamedTuple

from ....cutting import Draft
from ....hammock.hammock import Hammock
from ....hammock.part import Part
from ....making import Amount, CapacityStep, Workmanship


class Build(NamedTuple):
    """A hammock with how it is made.

    Parameters
    ----------
    hammock : Hammock
        Shape and materials.
    workmanship : Workmanship
        How its parts are made.
    parts : tuple of Part
        Parts of the structure in finished sizes; everything else is added.
    draft : Draft
        Pieces that are cut.
    """

    hammock: Hammock
    workmanship: Workmanship
    parts: tuple[Part, ...]
    draft: Draft


def take_finished(part: Part, dimension: Literal["length", "area"]) -> Amount:
    """Return the finished size of a part as an amount."""
    return Amount(part.amount, dimension, (CapacityStep("finished size", "the design", "stated"),))
