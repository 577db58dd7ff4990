"""The checks of a result as rows of the page."""

from collections.abc import Iterable
from typing import NamedTuple

from markupsafe import Markup

from ...cases.judging.checks import CheckRecord
from ...cases.judging.checks.check import name_part, write_factor
from ...cases.judging.checks.check_record import StepRecord
from ...cases.judging.weighing.weight_record import AmountStep
from ...cases.unit_display import SYSTEMS, show_alike
from .wording import mark_pair, mark_sentence

_BASIS = {  # words a maker reads for how sure a step is
    "seen": "seen in its source",
    "stated": "stated in the design",
    "second hand": "second hand",
    "derived": "worked out",
    "memory": "from memory",
    "judgement": "a judgement",
}


class CheckRow(NamedTuple):
    """One check: where, how, what is carried and borne, and the steps to it."""

    part: str
    mechanism: str
    place: Markup
    demand: Markup
    capacity: Markup
    found: str
    asked: str
    passed: bool
    basis: str
    steps: list[tuple[Markup, Markup, str]]
    factor_source: Markup
    factor_basis: str


class Checks(NamedTuple):
    """The weakest way of every part and all that fail, then the rest."""

    first: list[CheckRow]
    rest: list[CheckRow]


def sort_checks(checks: Iterable[CheckRecord]) -> Checks:
    """Return the checks of a result, least margin first.

    Parameters
    ----------
    checks : iterable of CheckRecord
        Least margin first.
    """
    found = Checks([], [])
    seen: set[str] = set()
    for check in checks:
        part = name_part(check.part)
        (found.first if not check.passed or part not in seen else found.rest).append(_build_row(check))
        seen.add(part)
    return found


def find_basis(word: str) -> str:
    """Return how sure something is, in words.

    Examples
    --------
    >>> find_basis("memory")
    'from memory'
    """
    return _BASIS.get(word, word)


def mark_steps(steps: Iterable[StepRecord | AmountStep]) -> list[tuple[Markup, Markup, str]]:
    """Return steps to a number: what is taken, its source, how sure it is."""
    return [(mark_sentence(step.text), mark_sentence(step.source), find_basis(step.basis)) for step in steps]


def _build_row(check: CheckRecord) -> CheckRow:
    """Return one check as it is shown."""
    pair = [check.demand.value, check.capacity.value]
    shown = zip(*(show_alike(pair, check.demand.dimension, system) for system in SYSTEMS), strict=True)
    carried, borne = (mark_pair(*each) for each in shown)
    return CheckRow(
        check.part,
        check.mechanism,
        mark_sentence(check.place),
        carried,
        borne,
        write_factor(check.factor),
        f"{check.asked:g}",
        check.passed,
        find_basis(check.basis),
        mark_steps(check.capacity_from),
        mark_sentence(check.factor_from.source),
        find_basis(check.factor_from.basis),
    )
