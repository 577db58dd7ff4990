"""All checks of a result."""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from .bar_checks import check_bars
from .case import Case
from .channel_checks import check_channels
from .check import Check, Unchecked
from .cloth_checks import check_cloth
from .corner_checks import check_corners
from .strap_checks import check_straps
from .tension_checks import check_tensions
from .termination_checks import check_endings

Checker = Callable[[Case], Iterator[Check | Unchecked]]
CHECKERS: tuple[Checker, ...] = (
    check_cloth,
    check_channels,
    check_tensions,
    check_endings,
    check_corners,
    check_straps,
    check_bars,
)


class Findings(NamedTuple):
    """Checks, highest utilisation first, and what could not be checked.

    Parameters
    ----------
    checks : tuple of Check
        The first governs.
    unchecked : tuple of Unchecked
        Parts about which the design does not state enough.
    """

    checks: tuple[Check, ...]
    unchecked: tuple[Unchecked, ...]

    def __repr__(self) -> str:
        """Return how many checks of each kind."""
        return f"Findings({len(self.checks)} checks, {len(self.failed)} failed, {len(self.unchecked)} not checked)"

    @property
    def failed(self) -> tuple[Check, ...]:
        """Checks that fail."""
        return tuple(check for check in self.checks if not check.passed)


def rank_check(check: Check) -> tuple[float, str]:
    """Return the sort key of checks: reserve factor, and the name where rounding alone would choose a side."""
    return float(f"{check.margin:.5g}"), check.part


def list_checks(case: Case) -> Findings:
    """Return every check of a solved design.

    Parameters
    ----------
    case : Case
        What was solved.

    Returns
    -------
    Findings
        Checks by utilisation, and what could not be checked.
    """
    found = [each for checker in CHECKERS for each in checker(case)]
    checks = sorted((each for each in found if isinstance(each, Check)), key=rank_check)
    return Findings(tuple(checks), tuple(each for each in found if isinstance(each, Unchecked)))
