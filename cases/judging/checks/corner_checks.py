"""Corner plates under the pull of cord and leg and the thrust of the bar."""

from collections.abc import Iterator

from ....making import CornerPlate
from ....making.corner import Hole, find_bearing, find_net_section, find_tear_out
from ..forces import find_cord_tension
from .case import Case
from .check import Check, Unchecked


def check_corners(case: Case) -> Iterator[Check | Unchecked]:
    """Yield the checks of every hole of every corner plate: net section, bearing, tear-out.

    Parameters
    ----------
    case : Case
        What was solved.

    Yields
    ------
    Check or Unchecked
        Eyes over the bar's tip are looked at by ``check_endings``.
    """
    corner = case.workmanship.corner
    if corner is None:
        sentence = "the design does not state what joins cord, leg and bar. Add [corner]."
        yield Unchecked("corners", sentence)
    if not isinstance(corner, CornerPlate):
        return
    hammock = case.hammock
    for side in ("left", "right"):
        cord = find_cord_tension(case.model, case.state, side)
        for end, piece in (("head", 0), ("foot", -1)):
            pulls = (
                (corner.cord, float(cord[piece]), hammock.channel.cord.diameter),
                (corner.leg, case.forces.pick_leg(end, side), hammock.suspension.pick(end).leg.diameter),
                (corner.tip, case.forces.pick_thrust(end), corner.tip_hole),
            )
            for hole, pull, width in pulls:
                yield from _check_hole(case, f"{side} {end} corner", hole, pull, width)


def _check_hole(case: Case, part: str, hole: Hole, pull: float, width: float) -> Iterator[Check]:
    """Yield the three failure modes of a plate at a hole that is pulled by something ``width`` m wide."""
    corner, asked = case.workmanship.corner, case.workmanship.factors["metal"]
    assert isinstance(corner, CornerPlate)  # only a plate has holes
    yield Check(part, f"breaks across {hole.name}", pull, find_net_section(corner, hole), asked)
    yield Check(part, f"crushes at {hole.name}", pull, find_bearing(corner, min(width, hole.diameter)), asked)
    yield Check(part, f"tears out at {hole.name}", pull, find_tear_out(corner, hole), asked)
