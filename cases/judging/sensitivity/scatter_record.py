"""Scatter of a result as it is kept: chances of its checks, bands of its lie, and the inputs they come from."""

from dataclasses import dataclass

from ...record import Record, Seconds, SIValue

RULE = (
    "every input drawn at once from its distribution (Latin hypercube), each hammock solved from the same shape; a "
    "polynomial is fitted to what was found and drawn 200,000 times together with what it misses. A chance below one "
    "in the number of solved hammocks is extrapolated. Wear, damage, wrong knots and errors of the formulas are in no "
    "chance."
)


@dataclass(frozen=True, repr=False)
class DrawnInputRecord(Record):
    """An input that was drawn: its law, 5th and 95th percentile, and where both come from."""

    input: str
    law: str
    low: SIValue
    high: SIValue
    source: str


@dataclass(frozen=True, repr=False)
class InputShare(Record):
    """Share of a variance that comes from an input: alone, and with all that it does together with others."""

    input: str
    first: float
    total: float


@dataclass(frozen=True, repr=False)
class CheckScatter(Record):
    """Scatter of the factor of safety of one check.

    Parameters
    ----------
    part, mechanism : str
        Which check.
    required : float
        Factor of safety required.
    low, middle, high : float
        Factors below which 5, 50 and 95 of 100 lie.
    short_chance, break_chance : float
        Share of hammocks whose factor is below the required one, and below 1.
    short_count, solved : int
        How many of the solved hammocks had less than the required factor, and how many were solved.
    explained : float
        Share of the variance that the polynomial explains in hammocks it was not fitted to.
    inputs : tuple of InputShare
        Where the scatter comes from, the largest total first; of the polynomial's variance.
    """

    part: str
    mechanism: str
    required: float
    low: float
    middle: float
    high: float
    short_chance: float
    break_chance: float
    short_count: int
    solved: int
    explained: float
    inputs: tuple[InputShare, ...]


@dataclass(frozen=True, repr=False)
class MeasureScatter(Record):
    """Band of one measure of how it hangs or how the person lies: 5 to 95 of 100."""

    title: str
    low: SIValue
    nominal: SIValue
    high: SIValue
    inputs: tuple[InputShare, ...]


@dataclass(frozen=True, repr=False)
class LostHammock(Record):
    """A drawn hammock that has no value: how many of a kind, and the reason of the first."""

    count: int
    reason: str


@dataclass(frozen=True, repr=False)
class ScatterRecord(Record):
    """Scatter of a result.

    Parameters
    ----------
    rule : str
        How it is found.
    checks : tuple of CheckScatter
        In the order of their utilisation.
    measures : tuple of MeasureScatter
        Of the hang and the lie.
    inputs : tuple of DrawnInputRecord
        What was drawn.
    lost : tuple of LostHammock
        Drawn hammocks without a shape; the chances are those of the rest.
    seconds : float
        Wall time, s.
    """

    rule: str
    checks: tuple[CheckScatter, ...]
    measures: tuple[MeasureScatter, ...]
    inputs: tuple[DrawnInputRecord, ...]
    lost: tuple[LostHammock, ...]
    seconds: Seconds
