"""Checks as plain numbers and words, for ``result.json``."""

from collections.abc import Iterable
from math import isfinite
from typing import Any

from ....making import CapacityStep
from .check import Check, Unchecked

UNITS = {
    "force": "N",
    "line_load": "N_per_m",
    "line_stiffness": "N_per_m",
    "stress": "Pa",
    "length": "m",
    "moment": "N_m",
    "ratio": "",
}


def describe_checks(checks: Iterable[Check]) -> list[dict[str, Any]]:
    """Return checks as plain numbers and words; the end of each key names the SI unit, factors have none.

    Parameters
    ----------
    checks : iterable of Check
        Least margin first.

    Returns
    -------
    list of dict
        One for each check; the factor found is None where there is no demand.

    Examples
    --------
    >>> from tautlay.making import FACTORS, Capacity, CapacityStep
    >>> cord = Capacity(4448.0, "force", (CapacityStep("breaking load", "a rope table", "memory"),))
    >>> described = describe_checks([Check("left head leg", "breaks", 1000.0, cord, FACTORS["cord"])])[0]
    >>> described["passed"], described["demand_N"], described["capacity_N"], described["basis"]
    (False, 1000.0, 4448.0, 'memory')
    """
    return [_describe(check) for check in checks]


def _describe(check: Check) -> dict[str, Any]:
    """Return one check as plain numbers and words."""
    unit = UNITS[check.capacity.dimension]
    end = f"_{unit}" if unit else ""
    return {
        "part": check.part,
        "mechanism": check.mechanism,
        "place": check.place,
        f"demand{end}": check.demand,
        f"capacity{end}": check.capacity.value,
        "safety_factor_found": check.found if isfinite(check.found) else None,
        "safety_factor_asked": check.asked.value,
        "passed": check.passed,
        "basis": check.capacity.basis,
        "capacity_from": [_describe_step(step) for step in check.capacity.steps],
        "factor_from": {"source": check.asked.source, "basis": check.asked.basis},
    }


def _describe_step(step: CapacityStep) -> dict[str, Any]:
    """Return one step as plain numbers and words."""
    spread = step.times.range if step.times is not None else None
    return {
        "text": step.text,
        "source": step.source,
        "basis": step.basis,
        "factor_least": spread[0] if spread else None,
        "factor_most": spread[1] if spread else None,
    }


def describe_unchecked(unchecked: Iterable[Unchecked]) -> list[dict[str, str]]:
    """Return what could not be checked.

    Parameters
    ----------
    unchecked : iterable of Unchecked
        Parts and reasons.

    Returns
    -------
    list of dict
        Part and reason.

    Examples
    --------
    >>> describe_unchecked([Unchecked("channel", "the design does not state how it is sewn")])[0]["part"]
    'channel'
    """
    return [{"part": each.part, "reason": each.reason} for each in unchecked]
