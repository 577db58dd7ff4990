"""The checks that are followed while inputs vary."""

from collections import Counter
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from ...judging.checks import Case, Check
from ...judging.checks.bar_checks import check_bars
from ...judging.checks.channel_checks import check_channels
from ...judging.checks.check import name_part
from ...judging.checks.cloth_checks import check_cloth
from ...judging.checks.findings import CHECKERS, Checker, rank_check

_OF_RIM = (check_cloth, check_channels)
_AT_CORNERS = ("side cord", "corner")  # its tension is largest there, and on a coarse rim moves half as much again


class CheckId(NamedTuple):
    """Which check: its checker, its part, its index among how many.

    A bar that bends for good may be crushed with another modulus: the words change, the place does not.
    """

    checker: Checker
    part: str
    place: int
    of: int

    @property
    def needs_rim(self) -> bool:
        """Whether what it finds depends on how fine the mesh is along channels and bars."""
        return self.checker in _OF_RIM or name_part(self.part).endswith(_AT_CORNERS)


def run_checks(case: Case, checkers: Iterable[Checker] = CHECKERS) -> dict[CheckId, Check]:
    """Return the checks of a case by their identity, not by their utilisation.

    Parameters
    ----------
    case : Case
        What was solved.
    checkers : iterable of callable
        Of :data:`~tautlay.cases.judging.checks.findings.CHECKERS`.

    Returns
    -------
    dict of Key to Check
        What could not be checked is missing.
    """
    found: dict[CheckId, Check] = {}
    for checker in checkers:
        checks = [each for each in checker(case) if isinstance(each, Check)]
        counts, places = Counter(check.part for check in checks), Counter[str]()
        for check in checks:
            found[CheckId(checker, check.part, places[check.part], counts[check.part])] = check
            places[check.part] += 1
    return found


def choose_checks(found: Mapping[CheckId, Check], most: int) -> dict[CheckId, Check]:
    """Return the checks of highest utilisation, one for each part, left and right as one.

    Parameters
    ----------
    found : mapping of CheckId to Check
        From :func:`run_checks`.
    most : int
        How many.

    Returns
    -------
    dict of Key to Check
        Highest utilisation first; a part without demand is skipped.
    """
    chosen: dict[str, CheckId] = {}
    for key in sorted(found, key=lambda key: rank_check(found[key])):
        if found[key].demand > 0.0:
            chosen.setdefault(name_part(key.part), key)
    return {key: found[key] for key in list(chosen.values())[:most]}


def list_checkers(keys: Iterable[CheckId], *, bars: bool = True) -> tuple[Checker, ...]:
    """Return the checkers of some checks, each once; bars, which take longest, only if they may have changed."""
    return tuple(dict.fromkeys(key.checker for key in keys if bars or key.checker is not check_bars))
