"""Spreader bars against their thrust."""

from collections.abc import Iterator

from ....making import list_untold, list_weaknesses
from .case import Case
from .check import Check, Unchecked


def check_bars(case: Case) -> Iterator[Check | Unchecked]:
    """Yield the checks of both bars under their thrust, one for each failure mode.

    Parameters
    ----------
    case : Case
        What was solved.

    Yields
    ------
    Check or Unchecked
        See :func:`~tautlay.making.list_weaknesses`; what the design does not state about a joint is not checked. Of
        several materials that fail together the largest factor is required.
    """
    for end in case.hammock.ends:
        name, bar = f"{end.name} bar", end.bar.build
        thrust = case.forces.pick_thrust(end.name)
        for weakness in list_weaknesses(bar):
            asked = max((case.workmanship.factors[kind] for kind in weakness.kinds), key=lambda factor: factor.value)
            yield Check(name, weakness.mechanism, thrust, weakness.capacity, asked, weakness.place)
        for reason in list_untold(bar):
            yield Unchecked(name, reason)
