"""All checks of a result."""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from .case import Case
from .check import Check, Unchecked
from .ending import check_endings
from .hardware import check_corners
from .strap import check_straps
from .tension import check_tensions

Checker = Callable[[Case], Iterator[Check | Unchecked]]
CHECKERS: tuple[Checker, ...] = (check_tensions, check_endings, check_corners, check_straps)

# What no check looks at yet.
OPEN = (
    Unchecked("cloth", "its strength, seams and stitches are not computed."),
    Unchecked("bars", "neither buckling nor crushing is computed."),
)


class Findings(NamedTuple):
    """What was checked, least margin first, and what could not be.

    Parameters
    ----------
    checks : tuple of Check
        The first gives way first.
    unchecked : tuple of Unchecked
        Parts about which the design does not tell enough.
    """

    checks: tuple[Check, ...]
    unchecked: tuple[Unchecked, ...]

    @property
    def failed(self) -> tuple[Check, ...]:
        """Checks that are not met."""
        return tuple(check for check in self.checks if not check.passed)


def list_checks(case: Case) -> Findings:
    """Return every check of a solved design.

    Parameters
    ----------
    case : Case
        What was solved.

    Returns
    -------
    Findings
        Checks by margin, and what could not be checked.
    """
    found = [each for checker in CHECKERS for each in checker(case)]
    checks = sorted((each for each in found if isinstance(each, Check)), key=lambda check: check.margin)
    return Findings(tuple(checks), (*(each for each in found if isinstance(each, Unchecked)), *OPEN))
