"""All checks of a result."""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from .bar_checks import check_bars
from .case import Case
from .channel_checks import check_channels
from .check import Check, Unchecked, rank_factor
from .cloth_checks import check_cloth
from .corner_checks import check_corners
from .extension_checks import check_extensions
from .hardware_checks import check_hardware
from .panel_checks import check_panels
from .strap_checks import check_straps
from .tension_checks import check_tensions
from .termination_checks import check_endings

Checker = Callable[[Case], Iterator[Check | Unchecked]]
CHECKERS: tuple[Checker, ...] = (
    check_cloth,
    check_channels,
    check_panels,
    check_extensions,
    check_tensions,
    check_endings,
    check_corners,
    check_straps,
    check_bars,
    check_hardware,
)


class Findings(NamedTuple):
    """Checks, what fails at the load first, then by utilisation; and what could not be checked.

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
    def broken(self) -> tuple[Check, ...]:
        """Checks of parts that fail at this load."""
        return tuple(check for check in self.checks if check.breaks)

    @property
    def failed(self) -> tuple[Check, ...]:
        """Checks that fail."""
        return tuple(check for check in self.checks if not check.passed)


def rank_check(check: Check) -> tuple[bool, float, str]:
    """Return the sort key of checks: what fails at the load itself first, by its factor; then by reserve factor.

    The name decides where rounding alone would choose a side.
    """
    intact, worst = rank_factor(check.found, check.asked.value)
    return intact, float(f"{worst:.5g}"), check.part


def list_checks(case: Case) -> Findings:
    """Return every check of a solved design.

    Parameters
    ----------
    case : Case
        What was solved.

    Returns
    -------
    Findings
        Checks in their order, and what could not be checked.
    """
    found = [each for checker in CHECKERS for each in checker(case)]
    checks = sorted((each for each in found if isinstance(each, Check)), key=rank_check)
    return Findings(tuple(checks), tuple(each for each in found if isinstance(each, Unchecked)))
