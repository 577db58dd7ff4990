"""Tension of cords and straps compared with their breaking load."""

from collections.abc import Iterator

from ....making import Rigging, find_share
from ....materials import Cord, Webbing
from .case import Case
from .check import Check, Unchecked

PARTS = {  # summary key -> name of the part, and which of the hammock's materials it is
    "side_cord_left_max_N": ("left side cord", "side cord"),
    "side_cord_right_max_N": ("right side cord", "side cord"),
    "head_leg_left_N": ("left head leg", "leg"),
    "head_leg_right_N": ("right head leg", "leg"),
    "foot_leg_left_N": ("left foot leg", "leg"),
    "foot_leg_right_N": ("right foot leg", "leg"),
    "head_line_N": ("head line", "line"),
    "foot_line_N": ("foot line", "line"),
}


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
    hammock, work = case.hammock, case.workmanship
    materials: dict[str, Cord | Webbing] = {
        "side cord": hammock.channel.cord,
        "leg": hammock.suspension.leg,
        "line": hammock.suspension.line,
    }
    for key, (part, name) in PARTS.items():
        material = materials[name]
        if _breaks_at_ends(case.workmanship.rigging, name, material):
            continue
        bears = case.find_breaking_load(material)
        yield Check(part, "breaks", case.forces[key], bears, work.factors[material.category])


def _breaks_at_ends(rigging: Rigging, name: str, material: Cord | Webbing) -> bool:
    """Return whether both ends of a leg or line are described and their retained strength is known."""
    ends = {"leg": (rigging.leg_at_corner, rigging.leg_at_apex), "line": (rigging.line_at_apex, rigging.line_at_tree)}
    return name in ends and all(end is not None and find_share(material, end) is not None for end in ends[name])
