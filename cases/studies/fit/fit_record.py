"""A fit as it is written to a file."""

from collections.abc import Sequence
from dataclasses import dataclass

from ...record import Record, SIValue, measure
from .stiffness_fit import FoundInput, StiffnessFit


@dataclass(frozen=True, repr=False)
class FoundRecord(Record):
    """What was found of one input.

    Parameters
    ----------
    input : str
        What it is.
    before, before_low, before_high : SIValue
        As in design and library, and between what 90 of 100 lie.
    found, low, high : SIValue
        Most likely now, and between what 90 of 100 lie.
    narrowed : float
        Standard deviation now over that before, of its logarithm where that scatters normally.
    told : str
        How well these measurements tell it: well, in part, not.
    helps : str or None
        What measurement would help most.
    narrowed_then : float
        As ``narrowed``, with that.
    """

    input: str
    before: SIValue
    before_low: SIValue
    before_high: SIValue
    found: SIValue
    low: SIValue
    high: SIValue
    narrowed: float
    told: str
    helps: str | None
    narrowed_then: float


@dataclass(frozen=True, repr=False)
class MisfitRecord(Record):
    """One measurement: what it is, as read, as computed, and by how many standard deviations they differ."""

    what: str
    measured: SIValue
    computed: SIValue
    spreads: float


@dataclass(frozen=True, repr=False)
class FitRecord(Record):
    """A fit in plain numbers and words.

    Parameters
    ----------
    stiffnesses, others : tuple of FoundRecord
        Of cloth, cords and straps; of lengths, widths, heights and bags.
    exact : tuple of str
        Stiffnesses without a range, which count as exact.
    misfits : tuple of MisfitRecord
        Each measurement.
    chance : float
        Of misfits as large as these.
    """

    stiffnesses: tuple[FoundRecord, ...]
    others: tuple[FoundRecord, ...]
    exact: tuple[str, ...]
    misfits: tuple[MisfitRecord, ...]
    chance: float


def record_fit(found: StiffnessFit) -> FitRecord:
    """Return a fit in plain numbers and words.

    Parameters
    ----------
    found : StiffnessFit
        From :func:`~tautlay.cases.studies.fit.stiffness_fit.fit_stiffness`.
    """
    return FitRecord(
        _record_inputs(found.stiffnesses),
        _record_inputs(found.others),
        tuple(str(each.title) for each in found.unknown),
        tuple(
            MisfitRecord(
                str(each.title),
                measure(each.measured, each.dimension),
                measure(each.computed, each.dimension),
                each.spreads,
            )
            for each in found.misfits
        ),
        found.chance,
    )


def _record_inputs(inputs: Sequence[FoundInput]) -> tuple[FoundRecord, ...]:
    """Return what was found of some inputs."""
    records = []
    for each in inputs:
        numbers = (each.source.value, each.law.low, each.law.high, each.value, each.low, each.high)
        values = [measure(number, each.source.dimension) for number in numbers]
        helps = None if each.helps is None else str(each.helps.title)
        before, before_low, before_high, value, low, high = values
        told = FoundRecord(
            str(each.source.title), before, before_low, before_high, value, low, high, each.narrowed, each.told, helps,
            each.helped,
        )  # fmt: skip
        records.append(told)
    return tuple(records)
