"""The checks of a result as rows of the page."""

from collections.abc import Iterable, Mapping
from math import inf
from typing import Any, NamedTuple

from markupsafe import Markup

from ...cases.judging.checks.check import name_part, write_factor
from ...cases.judging.checks.check_description import UNITS
from ...cases.unit_display import SYSTEMS, show_alike
from .wording import mark_pair, mark_sentence

_BASIS = {  # words a maker reads for how sure a step is
    "seen": "seen in its source",
    "stated": "stated in the design",
    "second hand": "second hand",
    "derived": "worked out",
    "memory": "from memory",
    "judgement": "a judgement",
}


class CheckRow(NamedTuple):
    """One check: where, how, what is carried and borne, and the steps to it."""

    part: str
    mechanism: str
    place: Markup
    demand: Markup
    capacity: Markup
    found: str
    asked: str
    passed: bool
    basis: str
    steps: list[tuple[Markup, Markup, str]]
    factor_source: Markup
    factor_basis: str


class Checks(NamedTuple):
    """The weakest way of every part and all that fail, then the rest."""

    first: list[CheckRow]
    rest: list[CheckRow]


def sort_checks(summary: Mapping[str, Any]) -> Checks:
    """Return the checks of a result, least margin first.

    Parameters
    ----------
    summary : mapping
        ``result.summary``.
    """
    found = Checks([], [])
    seen: set[str] = set()
    for check in summary["checks"]:
        part = name_part(check["part"])
        (found.first if not check["passed"] or part not in seen else found.rest).append(_build_row(check))
        seen.add(part)
    return found


def show_factor(check: Mapping[str, Any]) -> str:
    """Return the factor found, rounded down: 4.98 is not 5.

    Examples
    --------
    >>> show_factor({"safety_factor_found": 4.98}), show_factor({"safety_factor_found": None})
    ('4.9', 'over 99')
    """
    return write_factor(read_factor(check))


def read_factor(check: Mapping[str, Any]) -> float:
    """Return the factor found; without end where nothing is carried."""
    found = check["safety_factor_found"]
    return inf if found is None else float(found)


def find_basis(word: str) -> str:
    """Return how sure something is, in words.

    Examples
    --------
    >>> find_basis("memory")
    'from memory'
    """
    return _BASIS.get(word, word)


def mark_steps(steps: Iterable[Mapping[str, Any]]) -> list[tuple[Markup, Markup, str]]:
    """Return steps to a number: what is taken, its source, how sure it is."""
    return [(mark_sentence(step["text"]), mark_sentence(step["source"]), find_basis(step["basis"])) for step in steps]


def read_value(check: Mapping[str, Any], name: str) -> tuple[float, str]:
    """Return value and dimension of ``demand`` or ``capacity``, whose key ends in the SI unit.

    Examples
    --------
    >>> read_value({"demand_N_per_m": 500.0}, "demand")
    (500.0, 'line_load')
    """
    keys = ((f"{name}_{unit}" if unit else name, dimension) for dimension, unit in UNITS.items())
    return next((check[key], dimension) for key, dimension in keys if key in check)


def _build_row(check: Mapping[str, Any]) -> CheckRow:
    """Return one check as it is shown."""
    (demand, dimension), (capacity, _) = (read_value(check, name) for name in ("demand", "capacity"))
    shown = zip(*(show_alike([demand, capacity], dimension, system) for system in SYSTEMS), strict=True)
    carried, borne = (mark_pair(*pair) for pair in shown)
    return CheckRow(
        check["part"],
        check["mechanism"],
        mark_sentence(check["place"]),
        carried,
        borne,
        show_factor(check),
        f"{check['safety_factor_asked']:g}",
        check["passed"],
        find_basis(check["basis"]),
        mark_steps(check["capacity_from"]),
        mark_sentence(check["factor_from"]["source"]),
        find_basis(check["factor_from"]["basis"]),
    )
