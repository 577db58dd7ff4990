"""What a result is held against: demand, capacity, the factor of safety asked and found."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite
from typing import Any

from ..meshing.hammock import Hammock

# Design factor on the breaking load of cord and webbing that carry people or loads.
ASKED = 5.0
SOURCE = "Cordage Institute CI 1401-06 (5 to 12 for fibre rope); ASME B30.9 (5 for synthetic web slings), second hand"
TENSIONS = {  # summary key -> name of the part, and which of the hammock's materials it is
    "side_cord_left_max_N": ("left side cord", "side cord"),
    "side_cord_right_max_N": ("right side cord", "side cord"),
    "head_leg_left_N": ("head leg, left", "leg"),
    "head_leg_right_N": ("head leg, right", "leg"),
    "foot_leg_left_N": ("foot leg, left", "leg"),
    "foot_leg_right_N": ("foot leg, right", "leg"),
    "head_line_N": ("head line", "line"),
    "foot_line_N": ("foot line", "line"),
}


@dataclass(frozen=True)
class Check:
    """One requirement, met or not.

    Parameters
    ----------
    part : str
        What is checked.
    demand, capacity : float
        What it carries and what it can bear, in the same unit.
    asked : float
        Factor of safety asked.
    source : str
        Where the asked factor comes from.
    """

    part: str
    demand: float
    capacity: float
    asked: float
    source: str

    @property
    def found(self) -> float:
        """Factor of safety found: capacity over demand."""
        return self.capacity / self.demand if self.demand > 0.0 else float("inf")

    @property
    def passed(self) -> bool:
        """Whether the factor found is at least the one asked."""
        return self.found >= self.asked


def check_tensions(forces: Mapping[str, Any], hammock: Hammock) -> list[Check]:
    """Hold every cord, leg and line against its own breaking load.

    Splices, knots and stitches weaken a cord and are not part of its breaking load.

    Parameters
    ----------
    forces : mapping of str to float
        ``summary["forces"]``, N.
    hammock : Hammock
        What it is made of.

    Returns
    -------
    list of Check
        One for each part, in the order of ``TENSIONS``.

    Examples
    --------
    >>> from types import SimpleNamespace as Record
    >>> cord = Record(breaking_load=4448.0)
    >>> hammock = Record(channel=Record(cord=cord), suspension=Record(leg=cord, line=cord))
    >>> checks = check_tensions(dict.fromkeys(TENSIONS, 1000.0), hammock)
    >>> checks[0].part, round(checks[0].found, 1), checks[0].passed
    ('left side cord', 4.4, False)
    """
    breaking = {
        "side cord": hammock.channel.cord.breaking_load,
        "leg": hammock.suspension.leg.breaking_load,
        "line": hammock.suspension.line.breaking_load,
    }
    return [
        Check(part, float(forces[key]), breaking[material], ASKED, SOURCE) for key, (part, material) in TENSIONS.items()
    ]


def describe_checks(checks: list[Check]) -> list[dict[str, Any]]:
    """Return checks as plain numbers and words; the end of each key names the SI unit, factors and shares have none.

    Parameters
    ----------
    checks : list of Check
        From :func:`check_tensions`.

    Returns
    -------
    list of dict
        One for each check; the factor found is None where nothing is carried.

    Examples
    --------
    >>> described = describe_checks([Check("head leg, left", 1000.0, 4448.0, 5.0, "a standard")])[0]
    >>> described["passed"], round(described["share_of_break"], 3), described["safety_factor_found"]
    (False, 0.225, 4.448)
    """
    return [
        {
            "part": check.part,
            "tension_N": check.demand,
            "breaking_load_N": check.capacity,
            "share_of_break": check.demand / check.capacity,
            "safety_factor_found": check.found if isfinite(check.found) else None,
            "safety_factor_asked": check.asked,
            "passed": check.passed,
            "source": check.source,
        }
        for check in checks
    ]
