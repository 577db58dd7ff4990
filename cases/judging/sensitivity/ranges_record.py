"""Ranges of factors as a result keeps them: plain numbers and words."""

from dataclasses import dataclass
from typing import Annotated

from ...record import Key, Record, Seconds, SIValue, measure
from .factor_range import FactorRange, InputEffect
from .factor_ranges import FactorRanges, MissingRangeEnd
from .home_tests import SOURCE, TESTS
from .range_input import Input
from .scatter_record import ScatterRecord

_RULE = (
    "least = found x exp(-sqrt(sum of a^2)), most = found x exp(sqrt(sum of b^2)), worst = found x exp(-sum of a); a "
    "and b are the logarithms by which one input at an end of its range lowers and raises the factor, all others as "
    "they were. Inputs count as independent, ends of ranges as equally likely, effects as "
    "multiplying; only worst has all at once."
)


@dataclass(frozen=True, repr=False)
class InputRecord(Record):
    """A number that the checks rest on.

    Parameters
    ----------
    input : str
        What it is; may be a ``Sentence``.
    value : SIValue
        What is taken.
    """

    input: str
    value: SIValue


@dataclass(frozen=True, repr=False)
class RangeEnd(Record):
    """One end of the range of an input, and the factor with it; None was not found."""

    end: SIValue
    safety_factor: float | None


@dataclass(frozen=True, repr=False)
class EffectRecord(InputRecord):
    """What one input does to one check.

    Parameters
    ----------
    ends : tuple of RangeEnd
        Ends of its range that differ from what is taken, the lower first.
    share_of_band : float
        By what share of its width, on a log scale, the band shrinks once the input is known exactly.
    """

    ends: tuple[RangeEnd, ...]
    share_of_band: float


@dataclass(frozen=True, repr=False)
class InputToMeasure(InputRecord):
    """An input that is worth measuring: how, and where that comes from."""

    how: str
    how_source: str


@dataclass(frozen=True, repr=False)
class MissingEndRecord(InputRecord):
    """An end of a range at which a factor was not found, and why."""

    end: SIValue
    reason: str


@dataclass(frozen=True, repr=False)
class FactorRangeRecord(Record):
    r"""Between what the factor of one check lies.

    With :math:`a_i, b_i` the logarithms by which input i at an end of its range lowers and raises the factor f found:

    Parameters
    ----------
    part, mechanism : str
        Which check.
    asked, found : float
        Factors of safety.
    least : float
        Likely smallest, :math:`f e^{-\sqrt{\sum a_i^2}}`.
    most : float
        Likely largest, :math:`f e^{\sqrt{\sum b_i^2}}`.
    worst : float
        With every input at its worse end at once, :math:`f e^{-\sum a_i}`.
    complete : bool
        Whether the factor was found at every end of every range.
    measure_first : str or None
        Input without whose range the band would shrink most.
    inputs : tuple of EffectRecord
        What each does, the largest share first.
    no_range_known : tuple of str
        Inputs that are taken as they are.
    """

    part: str
    mechanism: str
    asked: Annotated[float, Key("safety_factor_asked")]
    found: Annotated[float, Key("safety_factor_found")]
    least: Annotated[float, Key("safety_factor_least")]
    most: Annotated[float, Key("safety_factor_most")]
    worst: Annotated[float, Key("safety_factor_worst")]
    complete: bool
    measure_first: str | None
    inputs: tuple[EffectRecord, ...]
    no_range_known: tuple[str, ...]


@dataclass(frozen=True, repr=False)
class FactorRangesRecord(Record):
    """How sure the checks of a result are.

    Parameters
    ----------
    rule : str
        How the bands are found.
    measure_first : InputToMeasure or None
        What is most worth measuring.
    checks : tuple of FactorRangeRecord
        In the order of their margin.
    no_range_known : tuple of InputRecord
        Inputs that are taken as they are.
    not_found : tuple of MissingEndRecord
        Ends that are missing.
    triangles, solves : int
        Of the mesh on which stiffnesses were varied, and how often.
    seconds : float
        Wall time, s.
    scatter : ScatterRecord or None
        With all inputs drawn at once; None was not asked.
    """

    rule: str
    measure_first: InputToMeasure | None
    checks: tuple[FactorRangeRecord, ...]
    no_range_known: tuple[InputRecord, ...]
    not_found: tuple[MissingEndRecord, ...]
    triangles: int
    solves: int
    seconds: Seconds
    scatter: ScatterRecord | None


def record_ranges(ranges: FactorRanges) -> FactorRangesRecord:
    """Return ranges in plain numbers and words.

    Parameters
    ----------
    ranges : FactorRanges
        From :func:`~tautlay.cases.studies.sensitivity.range_search.find_factor_ranges`.

    Examples
    --------
    >>> kept = record_ranges(FactorRanges((), (), 0, 0, 0.0))
    >>> kept.checks, kept.measure_first
    ((), None)
    """
    first = ranges.ranges[0].worth_measuring if ranges.ranges else None
    return FactorRangesRecord(
        rule=_RULE,
        measure_first=None if first is None else _record_test(first),
        checks=tuple(_record_range(band) for band in ranges.ranges),
        no_range_known=tuple(InputRecord(source.title, _measure_input(source)) for source in ranges.unknown),
        not_found=tuple(_record_missing(each) for each in ranges.failures),
        triangles=ranges.triangles,
        solves=ranges.solves,
        seconds=ranges.seconds,
        scatter=ranges.scatter,
    )


def _record_range(band: FactorRange) -> FactorRangeRecord:
    """Return one band in plain numbers and words."""
    first = band.worth_measuring
    return FactorRangeRecord(
        part=band.check.part,
        mechanism=band.check.mechanism,
        asked=band.check.asked.value,
        found=band.check.found,
        least=band.least,
        most=band.most,
        worst=band.worst,
        complete=band.complete,
        measure_first=None if first is None else first.title,
        inputs=tuple(_record_effect(band, effect) for effect in band.ranked),
        no_range_known=tuple(source.title for source in band.unknown),
    )


def _record_effect(band: FactorRange, effect: InputEffect) -> EffectRecord:
    """Return what one input does to one check."""
    source = effect.source
    ends = tuple(RangeEnd(measure(end, source.dimension), factor) for end, factor in sorted(effect.factors))
    return EffectRecord(source.title, _measure_input(source), ends, band.find_share(effect))


def _record_test(source: Input) -> InputToMeasure:
    """Return an input that is worth measuring, and how."""
    return InputToMeasure(source.title, _measure_input(source), TESTS[source.test], SOURCE)


def _record_missing(missing: MissingRangeEnd) -> MissingEndRecord:
    """Return an end that is missing."""
    source = missing.source
    return MissingEndRecord(
        source.title, _measure_input(source), measure(missing.end, source.dimension), missing.reason
    )


def _measure_input(source: Input) -> SIValue:
    """Return what is taken of an input, with its unit."""
    return measure(source.value, source.dimension)
