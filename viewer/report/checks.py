"""The checks of a result as rows of the page."""

from collections.abc import Iterable
from typing import NamedTuple

from markupsafe import Markup

from ...cases.display.basis_words import show_basis
from ...cases.judging.checks import CheckRecord
from ...cases.judging.checks.check import split_checks, write_factor, write_utilisation
from ...cases.judging.checks.check_record import StepRecord
from ...cases.judging.weighing.weight_record import AmountStep
from ...cases.unit_display import SYSTEMS, show_alike
from .wording import mark_pair, mark_sentence

_PASS, _FAIL = "\N{CHECK MARK} pass", "\N{BALLOT X} FAIL"


class CheckRow(NamedTuple):
    """One check: part, failure mode, demand and capacity, and the derivation of the capacity."""

    part: str
    mechanism: str
    place: Markup
    demand: Markup
    capacity: Markup
    found: str
    required: str
    used: str
    passed: bool
    verdict: str
    basis: str
    steps: list[tuple[Markup, Markup, str]]
    factor_source: Markup
    factor_basis: str


class Checks(NamedTuple):
    """The highest utilisation of every part and all checks that fail, then the rest."""

    first: list[CheckRow]
    rest: list[CheckRow]


def sort_checks(checks: Iterable[CheckRecord]) -> Checks:
    """Return the checks of a result in two lists, each in the order of the result.

    Parameters
    ----------
    checks : iterable of CheckRecord
        What fails at the load itself first, then highest utilisation first.
    """
    return Checks(*([_build_row(check) for check in some] for some in split_checks(checks)))


def show_verdict(*, passed: bool, breaks: bool) -> str:
    """Return the verdict on one check.

    Parameters
    ----------
    passed : bool
        Whether the factor of safety is at least the one required.
    breaks : bool
        Whether the part fails at the load itself.

    Examples
    --------
    >>> show_verdict(passed=True, breaks=False)[2:], show_verdict(passed=False, breaks=True)[2:]
    ('pass', 'FAIL at this load')
    """
    return _PASS if passed else f"{_FAIL} at this load" if breaks else _FAIL


def mark_steps(steps: Iterable[StepRecord | AmountStep]) -> list[tuple[Markup, Markup, str]]:
    """Return the derivation of a number: each step, its source, its basis."""
    return [(mark_sentence(step.text), mark_sentence(step.source), show_basis(step.basis)) for step in steps]


def _build_row(check: CheckRecord) -> CheckRow:
    """Return one check as it is shown."""
    pair = [check.demand.value, check.capacity.value]
    shown = zip(*(show_alike(pair, check.demand.dimension, system) for system in SYSTEMS), strict=True)
    demand, capacity = (mark_pair(*each) for each in shown)
    return CheckRow(
        check.part,
        check.mechanism,
        mark_sentence(check.place),
        demand,
        capacity,
        write_factor(check.factor),
        f"{check.asked:g}",
        write_utilisation(check.margin),
        check.passed,
        show_verdict(passed=check.passed, breaks=check.breaks),
        show_basis(check.basis),
        mark_steps(check.capacity_from),
        mark_sentence(check.factor_from.source),
        show_basis(check.factor_from.basis),
    )
