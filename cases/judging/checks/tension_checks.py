"""Tension of cords and straps compared with their breaking load."""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from ....making import Rigging, find_share
from ....materials import Cord, Webbing
from ..forces import Forces
from .case import Case
from .check import Check, Unchecked


class Tensioned(NamedTuple):
    """A part under tension: its name, which of the hammock's materials it is, at which end, and its tension, N."""

    part: str
    material: str
    end: str
    read: Callable[[Forces], float]


PARTS = (
    Tensioned("left side cord", "side cord", "head", lambda forces: forces.side_cord_left_max),
    Tensioned("right side cord", "side cord", "head", lambda forces: forces.side_cord_right_max),
    Tensioned("left head leg", "leg", "head", lambda forces: forces.head_leg_left),
    Tensioned("right head leg", "leg", "head", lambda forces: forces.head_leg_right),
    Tensioned("left foot leg", "leg", "foot", lambda forces: forces.foot_leg_left),
    Tensioned("right foot leg", "leg", "foot", lambda forces: forces.foot_leg_right),
    Tensioned("head line", "line", "head", lambda forces: forces.head_line),
    Tensioned("foot line", "line", "foot", lambda forces: forces.foot_line),
)


def check_tensions(case: Case) -> Iterator[Check | Unchecked]:
    """Yield the check of every cord, leg and line at its highest tension, away from its ends.

    A leg or line whose both ends are described has the same tension everywhere and breaks at an end; it is left to
    ``check_endings``.

    Parameters
    ----------
    case : Case
        What was solved.

    Yields
    ------
    Check
        One for each part, in the order of ``PARTS``; N.
    """
    work = case.workmanship
    for part, name, end, read in PARTS:
        hung = case.hammock.suspension.pick(end)
        material = {"side cord": case.hammock.channel.cord, "leg": hung.leg, "line": hung.line}[name]
        if _breaks_at_ends(work.pick_rigging(end), name, material):
            continue
        bears = case.find_breaking_load(material)
        yield Check(part, "breaks", read(case.forces), bears, work.factors[material.category])


def _breaks_at_ends(rigging: Rigging, name: str, material: Cord | Webbing) -> bool:
    """Return whether both ends of a leg or line are described and their retained strength is known."""
    ends = {"leg": (rigging.leg_at_corner, rigging.leg_at_apex), "line": (rigging.line_at_apex, rigging.line_at_tree)}
    return name in ends and all(end is not None and find_share(material, end) is not None for end in ends[name])
