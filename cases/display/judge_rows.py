"""The requirements of a verdict as rows of words, for terminal and page alike."""

from collections.abc import Iterator
from typing import NamedTuple

from ..judging.checks.check import name_part, write_factor, write_utilisation
from ..judging.verdict.requirement import Grade, Requirement, Topic
from ..judging.verdict.verdict import Verdict
from ..unit_display import Units, show_quantity

HEADINGS = ("requirement", "found", "required", "used", "worst case")
_LEAST_USED = 1e-3  # what uses less is not worth its digits
_SIDES = {"least": "min", "most": "max"}


class JudgeRow(NamedTuple):
    """One requirement in words.

    Parameters
    ----------
    grade : Grade
        How it ends.
    name : str
        What is required; what is wrong where that is said better.
    found, required, used, case : str
        Value, limit, utilisation, and the load and person of the worst case; empty where there is none.
    basis : str
        How well the strength is known, as of a requirement.
    """

    grade: Grade
    name: str
    found: str
    required: str
    used: str
    case: str
    basis: str

    @property
    def passed(self) -> bool:
        """Whether it is met."""
        return self.grade.passed

    @property
    def cells(self) -> tuple[str, ...]:
        """In the order of ``HEADINGS``."""
        return self[1 : 1 + len(HEADINGS)]


def list_judge_rows(verdict: Verdict, units: Units) -> Iterator[JudgeRow]:
    """Yield each requirement, the worst first.

    Parameters
    ----------
    verdict : Verdict
        Of a design.
    units : {"metric", "imperial", "both"}
        Units of values.
    """
    for each in verdict.requirements:
        yield JudgeRow(
            each.grade,
            name_part(_name(each)),
            _show_found(each, units),
            _show_required(each, units),
            _show_used(each),
            each.case,
            each.basis,
        )


def _name(found: Requirement) -> str:
    """Return what is required, with what is wrong; that alone where there is no value."""
    if found.words == found.name:
        return found.name
    return found.words if found.found is None else f"{found.name}: {found.words}"


def _show_found(found: Requirement, units: Units) -> str:
    """Return the value, or the factor of safety."""
    if found.found is None:
        return ""
    if found.topic is Topic.STRENGTH:
        return write_factor(found.found.value)
    return show_quantity(found.found.value, found.found.dimension, units)


def _show_required(found: Requirement, units: Units) -> str:
    """Return the limit with its side, or the factor of safety required."""
    if found.required is None:
        return ""
    if found.topic is Topic.STRENGTH:
        return f"{found.required.value:g}"
    return f"{_SIDES[found.side]} {show_quantity(found.required.value, found.required.dimension, units)}"


def _show_used(found: Requirement) -> str:
    """Return the utilisation; a word where there is none."""
    if found.utilisation is None:
        return "yes" if found.passed else ""
    return write_utilisation(1.0 / found.utilisation) if found.utilisation > _LEAST_USED else "0 %"
