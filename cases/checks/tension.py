"""Cords and straps against their breaking load."""

from collections.abc import Iterator

from ...making import find_capacity
from ...materials import Cord, Webbing
from .case import Case
from .check import Check, Unchecked

PARTS = {  # summary key -> name of the part, and which of the hammock's materials it is
    "side_cord_left_max_N": ("left side cord", "side cord"),
    "side_cord_right_max_N": ("right side cord", "side cord"),
    "head_leg_left_N": ("head leg, left", "leg"),
    "head_leg_right_N": ("head leg, right", "leg"),
    "foot_leg_left_N": ("foot leg, left", "leg"),
    "foot_leg_right_N": ("foot leg, right", "leg"),
    "head_line_N": ("head line", "line"),
    "foot_line_N": ("foot line", "line"),
}


def check_tensions(case: Case) -> Iterator[Check | Unchecked]:
    """Yield for every cord, leg and line whether it bears its largest tension.

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
        bears = find_capacity(material, "breaking_load", "force", "breaking load")
        bears = work.reductions.apply(bears, material.kind)
        yield Check(part, "breaks", case.forces[key], bears, work.factors[material.category])
