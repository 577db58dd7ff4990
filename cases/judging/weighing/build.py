"""The hammock that is weighed."""

from typing import Literal, NamedTuple, Protocol

from ....hammock.hammock import Hammock
from ....hammock.part import Part
from ....making import Amount, CapacityStep, Workmanship


class Described(Protocol):
    """Anything that describes a hammock and how it is made, such as a design."""

    @property
    def hammock(self) -> Hammock:
        """Shape and materials."""

    @property
    def workmanship(self) -> Workmanship:
        """How its parts are made."""


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
    """

    hammock: Hammock
    workmanship: Workmanship
    parts: tuple[Part, ...]


def take_finished(part: Part, dimension: Literal["length", "area"]) -> Amount:
    """Return the finished size of a part as an amount."""
    return Amount(part.amount, dimension, (CapacityStep("finished size", "the design", "stated"),))
