"""Two results side by side, number by number."""

import tomllib
from collections.abc import Iterable, Iterator, Mapping
from math import isfinite
from typing import NamedTuple

from markupsafe import Markup, escape

from ...cases.display.reading import Reading
from ...cases.display.result_rows import list_comfort, list_forces, list_shape
from ...cases.judging.checks import CheckRecord
from ...cases.judging.checks.check import rank_factor, write_factor
from ...cases.judging.weighing import Weights
from ...cases.result_record import ResultRecord
from ...cases.unit_display import SYSTEMS, show_quantity
from .checks import show_verdict
from .weights import list_masses
from .wording import mark_pair, mark_quantity

_SIGNS = {True: "+", False: "\N{MINUS SIGN}"}
_NONE = "\N{EN DASH}"
_ALIKE = 5e-4  # of the larger: three digits show no smaller difference
_WHOLE = 0.0995  # from here on shares are whole per cent


class Pair(NamedTuple):
    """One quantity of both results, and by how much the second is more, also as a share of the first."""

    title: str
    first: Markup
    second: Markup
    change: Markup
    share: str = ""


class Differences(NamedTuple):
    """A table with its heading."""

    title: str
    pairs: list[Pair]


class KeyDifference(NamedTuple):
    """A key of a design file that is not the same in both, and what stands there."""

    key: str
    first: str
    second: str


def list_changes(first: str, second: str) -> list[KeyDifference]:
    r"""Return what differs in the texts of two design files, key by key; a dash where one lacks it.

    Examples
    --------
    >>> list_changes('[body]\nlength = "2 m"\nlayers = 1', '[body]\nlength = "2.1 m"\nlayers = 1')
    [KeyDifference(key='body.length', first='2 m', second='2.1 m')]
    """
    ours, theirs = (dict(_walk_keys(tomllib.loads(text), "")) for text in (first, second))
    keys = [key for key in dict.fromkeys([*ours, *theirs]) if ours.get(key) != theirs.get(key)]
    return [KeyDifference(key, ours.get(key, _NONE), theirs.get(key, _NONE)) for key in keys]


def _walk_keys(found: object, above: str) -> Iterator[tuple[str, str]]:
    """Yield each key with its value in words; items of a list by their numbers from 1."""
    if isinstance(found, Mapping | list):
        items = found.items() if isinstance(found, Mapping) else enumerate(found, 1)
        for key, value in items:
            yield from _walk_keys(value, f"{above}.{key}" if above else str(key))
    else:
        yield above, {True: "true", False: "false"}.get(found, str(found)) if isinstance(found, bool) else str(found)


def list_differences(first: ResultRecord, second: ResultRecord) -> Iterator[Differences]:
    """Yield forces, factors of safety, shape, comfort and weights of two results.

    Parameters
    ----------
    first, second : ResultRecord
        Of both.
    """
    both = (first, second)
    forces, shapes = (
        [list_forces(each.forces, each.anchors, each.trees) for each in both],
        [list_shape(each.shape, each.weights) for each in both],
    )
    yield Differences("Forces", list(_pair_readings(*forces)))
    yield Differences("Factors of safety", list(_pair_factors(first.checks, second.checks)))
    yield Differences("Shape", list(_pair_readings(*shapes)))
    if first.comfort is not None and second.comfort is not None:
        lying = (list_comfort(first.comfort), list_comfort(second.comfort))
        yield Differences("Lay and comfort", list(_pair_readings(*lying)))
    yield Differences("Weights", list(_pair_readings(*(_read_masses(each.weights) for each in both))))


def _pair_readings(first: Iterable[Reading], second: Iterable[Reading]) -> Iterator[Pair]:
    """Yield readings of both by their titles; a dash where one lacks it."""
    ours, theirs = ({line.title: line for line in lines} for lines in (first, second))
    for title in dict.fromkeys([*ours, *theirs]):
        a, b = ours.get(title), theirs.get(title)
        dimension = (a or b or Reading(title, 0.0, "ratio")).dimension
        one, two = (None if line is None else line.value for line in (a, b))
        change = _format_change(one, two, dimension)
        share = _format_share(one, two) if dimension != "angle" else ""
        yield Pair(title, mark_quantity(one, dimension), mark_quantity(two, dimension), change, share)


def _format_change(first: float | None, second: float | None, dimension: str) -> Markup:
    """Return by how much the second is more."""
    if first is None or second is None:
        return Markup("only in one")
    if _are_alike(first, second):
        return Markup("the same")
    sign, more = _SIGNS[second > first], abs(second - first)
    return mark_pair(*(sign + show_quantity(more, dimension, units, 2) for units in SYSTEMS))


def _format_share(first: float | None, second: float | None) -> str:
    """Return by how much the second is more, in per cent; nothing where that says nothing."""
    if first is None or second is None or first == 0.0 or _are_alike(first, second):
        return ""
    share = abs(second / first - 1)
    return f"{_SIGNS[second > first]}{share:.{0 if share >= _WHOLE else 1}%}"


def _are_alike(first: float, second: float) -> bool:
    """Return whether two values look the same as they are shown."""
    return abs(second - first) <= _ALIKE * max(abs(first), abs(second))


def _pair_factors(first: Iterable[CheckRecord], second: Iterable[CheckRecord]) -> Iterator[Pair]:
    """Yield the lowest factor of each part and failure mode: what fails at the load itself first, then by reserve."""
    ours, theirs = (_find_lowest(checks) for checks in (first, second))
    found = {name: [side[name] for side in (ours, theirs) if name in side] for name in [*ours, *theirs]}
    for name in sorted(found, key=lambda name: min(rank_factor(each.factor, each.asked) for each in found[name])):
        a, b = ours.get(name), theirs.get(name)
        yield Pair(f"{name[0]}: {name[1]}", _show(a), _show(b), _format_more(a, b))


def _find_lowest(checks: Iterable[CheckRecord]) -> dict[tuple[str, str], CheckRecord]:
    """Return the check with the lowest reserve factor of each part and mechanism."""
    found: dict[tuple[str, str], CheckRecord] = {}
    for check in checks:  # the lowest first
        found.setdefault((check.part, check.mechanism), check)
    return found


def _show(check: CheckRecord | None) -> Markup:
    """Return a factor with the one required, and the verdict where it fails."""
    if check is None:
        return Markup("&ndash;")
    verdict = "" if check.passed else f" {show_verdict(passed=False, breaks=check.breaks)}"
    return escape(f"{write_factor(check.factor)}, required {check.asked:g}{verdict}")


def _format_more(first: CheckRecord | None, second: CheckRecord | None) -> Markup:
    """Return by how much the second factor is more."""
    if first is None or second is None:
        return Markup("only in one")
    more = second.factor - first.factor
    if write_factor(first.factor) == write_factor(second.factor):
        return Markup("the same")
    if not isfinite(more):
        return Markup("&ndash;")
    return escape(f"{_SIGNS[more > 0]}{abs(more):.1f}" if abs(more) >= 0.05 else f"{_SIGNS[more > 0]}0.1 or less")


def _read_masses(weights: Weights) -> Iterator[Reading]:
    """Yield every mass of the weights."""
    for heading, title, mass in list_masses(weights):
        yield Reading(f"{heading}: {title}" if heading else title, mass, "mass")
