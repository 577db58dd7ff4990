"""How sure the factors are, where a solve was asked to find out."""

from typing import NamedTuple

from ...cases.judging.checks.check import write_factor
from ...cases.judging.sensitivity.ranges_record import FactorRangeRecord, FactorRangesRecord

_LITTLE = 0.005  # of a band, below which an input is not worth a line


class RangeRow(NamedTuple):
    """Between what one factor lies: least, found and most, the one asked, what moves it, in words."""

    part: str
    mechanism: str
    least: str
    found: str
    most: str
    asked: str
    verdict: str
    inputs: list[str]


def list_bands(how_sure: FactorRangesRecord | None) -> list[RangeRow]:
    """Return the bands of the checks of least margin; none if they were not asked for.

    Parameters
    ----------
    how_sure : FactorRangesRecord or None
        Of one result.

    Examples
    --------
    >>> list_bands(None)
    []
    """
    return [] if how_sure is None else [_build_band(check) for check in how_sure.checks]


def _build_band(check: FactorRangeRecord) -> RangeRow:
    """Return one band as it is shown."""
    verdict = "\N{CHECK MARK} ok"
    if check.least < check.asked:
        verdict = "\N{BALLOT X} NOT ENOUGH" if check.found < check.asked else "? MAY FALL SHORT"
    moved = {each.input: each.share_of_band for each in check.inputs}
    inputs = [f"{share:.0%} {name}" for name, share in moved.items() if share >= _LITTLE]
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
