"""Checks as a result keeps them: plain numbers, words and sources."""

from dataclasses import dataclass
from math import inf, isfinite
from typing import Annotated

from ....making import Basis, CapacityStep
from ...record import Key, Record, SIValue, measure
from .check import Check


@dataclass(frozen=True, repr=False)
class StepRecord(Record):
    """One step towards a capacity.

    Parameters
    ----------
    text : str
        What is taken; may be a ``Sentence``.
    source : str
        Document, formula, or ``common practice, no source``.
    basis : str
        How sure it is.
    factor_least, factor_most : float or None
        Smallest and largest likely value of what it multiplies with; None where it does not, or none is known.
    """

    text: str
    source: str
    basis: Basis
    factor_least: float | None
    factor_most: float | None


@dataclass(frozen=True, repr=False)
class FactorSource(Record):
    """Where a factor asked comes from, and how sure that is."""

    source: str
    basis: Basis


@dataclass(frozen=True, repr=False)
class CheckRecord(Record):
    r"""What one part carries in one way of failing, and what it bears.

    Parameters
    ----------
    part, mechanism, place : str
        What is checked, how it would fail and where; may be a ``Sentence``.
    demand : SIValue
        What it carries, D.
    capacity : SIValue
        What it bears, C, in the same unit.
    found : float or None
        Factor of safety found, :math:`C / D`; None where nothing is carried.
    asked : float
        Factor of safety asked.
    passed : bool
        Whether the factor found is at least the one asked.
    basis : str
        Of the weakest step.
    capacity_from : tuple of StepRecord
        How the capacity comes about.
    factor_from : FactorSource
        Where the factor asked comes from.
    """

    part: str
    mechanism: str
    place: str
    demand: SIValue
    capacity: SIValue
    found: Annotated[float | None, Key("safety_factor_found")]
    asked: Annotated[float, Key("safety_factor_asked")]
    passed: bool
    basis: Basis
    capacity_from: tuple[StepRecord, ...]
    factor_from: FactorSource

    @property
    def factor(self) -> float:
        """Factor of safety found; without end where nothing is carried."""
        return inf if self.found is None else self.found

    @property
    def breaks(self) -> bool:
        """Whether the part fails at this load itself, whatever factor is required."""
        return self.factor < 1.0

    @property
    def margin(self) -> float:
        """Factor found over factor asked."""
        return self.factor / self.asked


def record_check(check: Check) -> CheckRecord:
    """Return a check in plain numbers and words.

    Parameters
    ----------
    check : Check
        Passed or not.

    Examples
    --------
    >>> from tautlay.making import FACTORS, Capacity, CapacityStep
    >>> cord = Capacity(4448.0, "force", (CapacityStep("breaking load", "a rope table", "memory"),))
    >>> kept = record_check(Check("head leg, left", "breaks", 1000.0, cord, FACTORS["cord"]))
    >>> kept.passed, kept.demand.value, kept.capacity, kept.basis
    (False, 1000.0, SIValue(value=4448.0, unit='N'), 'memory')
    """
    return CheckRecord(
        part=check.part,
        mechanism=check.mechanism,
        place=check.place,
        demand=measure(check.demand, check.capacity.dimension),
        capacity=measure(check.capacity.value, check.capacity.dimension),
        found=check.found if isfinite(check.found) else None,
        asked=check.asked.value,
        passed=check.passed,
        basis=check.capacity.basis,
        capacity_from=tuple(_record_step(step) for step in check.capacity.steps),
        factor_from=FactorSource(check.asked.source, check.asked.basis),
    )


def _record_step(step: CapacityStep) -> StepRecord:
    """Return one step in plain numbers and words."""
    least, most = (step.times.range if step.times is not None else None) or (None, None)
    return StepRecord(step.text, step.source, step.basis, least, most)
