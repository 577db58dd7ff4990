"""The ranges of the factors of safety as rows of the page, where a solve was asked for them."""

from typing import NamedTuple

from ...cases.display.scatter_words import LIMITS, write_scatter
from ...cases.judging.checks.check import write_factor
from ...cases.judging.sensitivity.ranges_record import FactorRangeRecord, FactorRangesRecord
from .checks import show_verdict

_LITTLE = 0.005  # of a range, below which an input is not worth a line


class RangeRow(NamedTuple):
    """The range of one factor: low, nominal and high, the one required, the inputs that change it, in words."""

    part: str
    mechanism: str
    low: str
    nominal: str
    high: str
    required: str
    verdict: str
    inputs: list[str]


def list_ranges(how_sure: FactorRangesRecord | None) -> list[RangeRow]:
    """Return the ranges of the checks with the highest utilisation; none if they were not asked for.

    Parameters
    ----------
    how_sure : FactorRangesRecord or None
        Of one result.

    Examples
    --------
    >>> list_ranges(None)
    []
    """
    return [] if how_sure is None else [_build_range(check) for check in how_sure.checks]


def list_chances(how_sure: FactorRangesRecord | None) -> list[str]:
    """Return what the scatter of all inputs means for each check, and what no chance counts; none if not asked for.

    Parameters
    ----------
    how_sure : FactorRangesRecord or None
        Of one result.

    Examples
    --------
    >>> list_chances(None)
    []
    """
    if how_sure is None or how_sure.scatter is None:
        return []
    return [*(write_scatter(check) for check in how_sure.scatter.checks), LIMITS]


def _build_range(check: FactorRangeRecord) -> RangeRow:
    """Return one range as it is shown."""
    verdict = show_verdict(passed=check.found >= check.asked, breaks=check.found < 1.0)
    if check.least < check.asked <= check.found:
        verdict = "? UNCERTAIN"
    effects = {each.input: each.share_of_band for each in check.inputs}
    inputs = [f"{share:.0%} {name}" for name, share in effects.items() if share >= _LITTLE]
    wider = "" if check.complete and not check.no_range_known else " or more"
    return RangeRow(
        check.part,
        check.mechanism,
        write_factor(check.least),
        write_factor(check.found),
        write_factor(check.most) + wider,
        f"{check.asked:g}",
        verdict,
        inputs,
    )
