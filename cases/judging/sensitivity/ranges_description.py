"""Factor ranges as plain numbers and words, for ``result.json``."""

from typing import Any

from ..checks.check_description import UNITS
from .factor_range import FactorRange, InputEffect
from .factor_ranges import FactorRanges
from .home_tests import SOURCE, TESTS
from .range_input import Input

_RULE = (
    "least = found x exp(-sqrt(sum of a^2)), most = found x exp(sqrt(sum of b^2)), worst = found x exp(-sum of a). "
    "a and b: logarithms by which one input at an end of its range lowers and raises the factor, all others nominal. "
    "Inputs are taken as independent, both ends of a range as equally likely, effects as multiplying. Only worst has "
    "all inputs at their worse end."
)


def describe_factor_ranges(ranges: FactorRanges) -> dict[str, Any]:
    """Return ranges as plain numbers and words; the end of each key names the SI unit, factors and shares have none.

    Parameters
    ----------
    ranges : FactorRanges
        From :func:`~tautlay.cases.studies.sensitivity.range_search.find_factor_ranges`.

    Returns
    -------
    dict
        ``checks`` in the order of their utilisation, each with the effect of every input, the largest share first.

    Examples
    --------
    >>> described = describe_factor_ranges(FactorRanges((), (), 0, 0, 0.0))
    >>> described["checks"], described["measure_first"]
    ([], None)
    """
    first = ranges.ranges[0].worth_measuring if ranges.ranges else None
    return {
        "rule": _RULE,
        "measure_first": None if first is None else _describe_test(first),
        "checks": [_describe_band(band) for band in ranges.ranges],
        "no_range_known": [_describe_input(source) for source in ranges.unknown],
        "not_found": [
            {**_describe_input(each.source), _name_key("end", each.source): each.end, "reason": each.reason}
            for each in ranges.failures
        ],
        "triangles": ranges.triangles,
        "solves": ranges.solves,
        "seconds_s": ranges.seconds,
    }


def _describe_band(band: FactorRange) -> dict[str, Any]:
    """Return one band as plain numbers and words."""
    first = band.worth_measuring
    return {
        "part": band.check.part,
        "mechanism": band.check.mechanism,
        "safety_factor_asked": band.check.asked.value,
        "safety_factor_found": band.check.found,
        "safety_factor_least": band.least,
        "safety_factor_most": band.most,
        "safety_factor_worst": band.worst,
        "complete": band.complete,
        "measure_first": None if first is None else first.title,
        "inputs": [_describe_effect(band, effect) for effect in band.ranked],
        "no_range_known": [source.title for source in band.unknown],
    }


def _describe_effect(band: FactorRange, effect: InputEffect) -> dict[str, Any]:
    """Return what one input does to one check."""
    ends = [{_name_key("end", effect.source): end, "safety_factor": factor} for end, factor in sorted(effect.factors)]
    return {**_describe_input(effect.source), "ends": ends, "share_of_band": band.find_share(effect)}


def _describe_input(source: Input) -> dict[str, Any]:
    """Return an input as plain numbers and words."""
    return {"input": source.title, _name_key("value", source): source.value}


def _describe_test(source: Input) -> dict[str, Any]:
    """Return an input that is worth measuring, and how."""
    return {**_describe_input(source), "how": TESTS[source.test], "how_source": SOURCE}


def _name_key(word: str, source: Input) -> str:
    """Return a key that ends with the SI unit of an input."""
    unit = UNITS[source.dimension]
    return f"{word}_{unit}" if unit else word
