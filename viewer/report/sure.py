"""How sure the factors are, where a solve was asked to find out."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from ...cases.judging.checks.check import write_factor

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


def list_bands(summary: Mapping[str, Any]) -> list[RangeRow]:
    """Return the bands of the checks of least margin; none if they were not asked for.

    Parameters
    ----------
    summary : mapping
        ``result.summary``.

    Examples
    --------
    >>> list_bands({"how_sure": None})
    []
    """
    return [_build_band(check) for check in (summary["how_sure"] or {"checks": []})["checks"]]


def _build_band(check: Mapping[str, Any]) -> RangeRow:
    """Return one band as it is shown."""
    asked = check["safety_factor_asked"]
    least, found, most = (check[f"safety_factor_{name}"] for name in ("least", "found", "most"))
    verdict = "\N{CHECK MARK} ok"
    if least < asked:
        verdict = "\N{BALLOT X} NOT ENOUGH" if found < asked else "? MAY FALL SHORT"
    moved = {each["input"]: each["share_of_band"] for each in check["inputs"]}
    inputs = [f"{share:.0%} {name}" for name, share in moved.items() if share >= _LITTLE]
    wider = "" if check["complete"] and not check["no_range_known"] else " or more"
    return RangeRow(
        check["part"],
        check["mechanism"],
        write_factor(least),
        write_factor(found),
        write_factor(most) + wider,
        f"{asked:g}",
        verdict,
        inputs,
    )
