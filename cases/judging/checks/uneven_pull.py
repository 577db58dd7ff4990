"""Legs and side cords of somebody who lies off the middle: those on that side pull harder."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import NamedTuple

from ....materials.short_repr import write_repr
from ..forces import Forces
from .check import Check, name_part
from .tension_checks import PARTS

_LEG, _CORD = " leg", "side cord"
_NEAR = 1.15  # of the factor required: three demonstrations, 4 cm aside, pull up to 1.07 times as hard


class UnevenPull(NamedTuple):
    """How hard legs and side cords pull off the middle, over how hard the same pull in the middle.

    Parameters
    ----------
    leg, cord : float
        Of the leg and of the side cord where it grows most.
    """

    leg: float
    cord: float

    def __repr__(self) -> str:
        return write_repr(self, f"legs x {self.leg:.3f}", f"side cords x {self.cord:.3f}")


def measure_uneven_pull(middle: Forces, aside: Forces) -> UnevenPull:
    """Return how much harder legs and side cords pull off the middle.

    Parameters
    ----------
    middle, aside : Forces
        Of the same hammock and person.
    """
    pulls = {part.part: (part.read(middle), part.read(aside)) for part in PARTS}
    leg, cord = (
        max(
            (after / before for name, (before, after) in pulls.items() if name.endswith(ending) and before > 0),
            default=1,
        )
        for ending in (_LEG, _CORD)
    )
    return UnevenPull(leg, cord)


def may_fall_short(checks: Iterable[Check]) -> bool:
    """Return whether a leg or side cord that passes is so near its factor that it may not pass off the middle.

    Parameters
    ----------
    checks : iterable of Check
        Of who lies in the middle.
    """
    return any(1.0 <= check.margin < _NEAR for check in checks if _bears(check))


def list_aside(checks: Iterable[Check], pull: UnevenPull) -> Iterator[Check]:
    """Yield the checks of legs and side cords that pass in the middle and not off it, as they are there.

    Parameters
    ----------
    checks : iterable of Check
        Of who lies in the middle.
    pull : UnevenPull
        How much harder they pull.

    Examples
    --------
    >>> from tautlay.making import FACTORS, Capacity, CapacityStep
    >>> cord = Capacity(5100.0, "force", (CapacityStep("breaking load", "a rope table", "memory"),))
    >>> leg = Check("left head leg", "breaks", 1000.0, cord, FACTORS["cord"])
    >>> list(list_aside([leg], UnevenPull(1.05, 1.02)))
    [Check('left head leg, breaks lying aside', factor 4.85 of 5)]
    >>> list(list_aside([leg], UnevenPull(1.01, 1.01)))
    []
    """
    for check in checks:
        if check.passed and _bears(check):
            more = pull.leg if check.part.endswith(_LEG) else pull.cord
            aside = replace(check, demand=check.demand * more, mechanism=f"{check.mechanism} lying aside")
            if not aside.passed:
                yield aside


def _bears(check: Check) -> bool:
    """Return whether a check is of a leg or a side cord."""
    return check.part.endswith(_LEG) or name_part(check.part) == _CORD
