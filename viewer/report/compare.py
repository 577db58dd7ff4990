"""Two results side by side, number by number."""

import tomllib
from collections.abc import Iterable, Iterator, Mapping
from math import isfinite
from typing import Any, NamedTuple

from markupsafe import Markup, escape

from ...cases.display.result_rows import Reading, list_comfort, list_forces, list_shape
from ...cases.unit_display import SYSTEMS, show_quantity
from .checks import read_factor, show_factor
from .wording import mark_name, mark_pair, mark_quantity

_SIGNS = {True: "+", False: "\N{MINUS SIGN}"}
_NONE = "\N{EN DASH}"
_ALIKE = 5e-4  # of the larger: less is no difference that three digits show

_WHOLE = 0.0995  # shares from here on are told in whole per cent


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


def list_differences(first: Mapping[str, Any], second: Mapping[str, Any]) -> Iterator[Differences]:
    """Yield forces, factors of safety, shape, comfort and weights of two results.

    Parameters
    ----------
    first, second : mapping
        ``result.summary`` of both.
    """
    yield Differences("Forces", list(_pair_readings(list_forces(first), list_forces(second))))
    yield Differences("Factors of safety", list(_pair_factors(first["checks"], second["checks"])))
    yield Differences("Shape", list(_pair_readings(list_shape(first), list_shape(second))))
    if first["comfort"] and second["comfort"]:
        yield Differences("How one lies", list(_pair_readings(list_comfort(first), list_comfort(second))))
    yield Differences("Weights", list(_pair_readings(_list_masses(first), _list_masses(second))))


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
    """Return by how much the second is more, in per cent; nothing where that tells nothing."""
    if first is None or second is None or first == 0.0 or _are_alike(first, second):
        return ""
    share = abs(second / first - 1)
    return f"{_SIGNS[second > first]}{share:.{0 if share >= _WHOLE else 1}%}"


def _are_alike(first: float, second: float) -> bool:
    """Tell whether two values are the same for all that is shown of them."""
    return abs(second - first) <= _ALIKE * max(abs(first), abs(second))


def _pair_factors(first: list[dict[str, Any]], second: list[dict[str, Any]]) -> Iterator[Pair]:
    """Yield the least factor of each part and way of failing, those with the least margin first."""
    ours, theirs = (_find_least(checks) for checks in (first, second))
    names = sorted({*ours, *theirs}, key=lambda name: min(_margin(side.get(name)) for side in (ours, theirs)))
    for name in names:
        a, b = ours.get(name), theirs.get(name)
        yield Pair(f"{name[0]}: {name[1]}", _show(a), _show(b), _format_more(a, b))


def _find_least(checks: list[dict[str, Any]]) -> dict[tuple[str, str], dict[str, Any]]:
    """Return the check with the least margin of each part and mechanism."""
    found: dict[tuple[str, str], dict[str, Any]] = {}
    for check in checks:  # least margin first
        found.setdefault((check["part"], check["mechanism"]), check)
    return found


def _margin(check: Mapping[str, Any] | None) -> float:
    """Return the factor found over the factor asked."""
    return float("inf") if check is None else read_factor(check) / check["safety_factor_asked"]


def _show(check: Mapping[str, Any] | None) -> Markup:
    """Return a factor with the one asked, and whether it is enough."""
    if check is None:
        return Markup("&ndash;")
    enough = "" if check["passed"] else ", NOT ENOUGH"
    return escape(f"{show_factor(check)} of {check['safety_factor_asked']:g}{enough}")


def _format_more(first: Mapping[str, Any] | None, second: Mapping[str, Any] | None) -> Markup:
    """Return by how much the second factor is more."""
    if first is None or second is None:
        return Markup("only in one")
    more = read_factor(second) - read_factor(first)
    if show_factor(first) == show_factor(second):
        return Markup("the same")
    if not isfinite(more):
        return Markup("&ndash;")
    return escape(f"{_SIGNS[more > 0]}{abs(more):.1f}" if abs(more) >= 0.05 else f"{_SIGNS[more > 0]}0.1 or less")


def _list_masses(summary: Mapping[str, Any]) -> Iterator[Reading]:
    """Yield every mass of the weights, whatever they hold."""
    return _walk_masses(summary["weights"], "", mass=False)


def _walk_masses(found: Mapping[str, Any], above: str, *, mass: bool) -> Iterator[Reading]:
    """Yield masses in nested mappings: keys that end in kg, and what stands under such a key."""
    for key, value in found.items():
        heavy = mass or key.endswith("_kg")
        title = above + mark_name(key.removesuffix("_kg"))
        if isinstance(value, Mapping):
            yield from _walk_masses(value, f"{title}: ", mass=heavy)
        elif heavy and isinstance(value, int | float) and not isinstance(value, bool):
            yield Reading(title, float(value), "mass")
