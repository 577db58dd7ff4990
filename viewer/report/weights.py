"""The weights of a result as tables, whatever they hold: the unit of a number is told by the end of its key."""

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from markupsafe import Markup, escape

from .checks import find_basis, mark_steps
from .wording import mark_name, mark_quantity, mark_sentence

_SUFFIXES = (  # of keys, longest first, with the dimension they tell
    ("_kg_per_m2", "areal_mass"),
    ("_kg_per_m", "linear_mass"),
    ("_N_per_m", "line_load"),
    ("_kg", "mass"),
    ("_N_m", "moment"),
    ("_rad", "angle"),
    ("_Pa", "stress"),
    ("_m2", "area"),
    ("_m", "length"),
    ("_N", "force"),
)


class WeightLine(NamedTuple):
    """One line of a table: what, how much, a remark, how deep it stands below the others."""

    title: str
    value: Markup
    remark: Markup = Markup()
    depth: int = 0


class SheetRow(NamedTuple):
    """One line of a sheet: its cells, and the steps to it with source and how sure each is."""

    cells: list[Markup]
    steps: list[tuple[Markup, Markup, str]]


class WeightTable(NamedTuple):
    """A table of things that are alike."""

    title: str
    headings: list[str]
    rows: list[SheetRow]


def list_weights(weights: Mapping[str, Any], depth: int = 0) -> Iterator[WeightLine]:
    """Yield what the weights of a result hold, lists of things left out: masses, other quantities, words.

    Parameters
    ----------
    weights : mapping
        ``summary["weights"]``, or a part of it.
    depth : int
        How many headings it stands under.

    Examples
    --------
    >>> [(line.title, str(line.value)) for line in list_weights({"hammock_kg": 0.3, "made": "well"})][1]
    ('made', 'well')
    """
    for key, value in weights.items():
        title, dimension = _split_key(key)
        if _is_sheet(value) or value == []:
            continue
        if isinstance(value, Mapping | list):
            yield WeightLine(title, Markup(), Markup(), depth)
            inner = value if isinstance(value, Mapping) else {str(place): each for place, each in enumerate(value, 1)}
            end = "_kg" if dimension == "mass" else ""  # parts_kg holds masses under plain names
            yield from list_weights({f"{name}{end}": inside for name, inside in inner.items()}, depth + 1)
        else:
            yield WeightLine(title, _mark_cell(value, dimension), Markup(), depth)


def list_sheets(weights: Mapping[str, Any]) -> Iterator[WeightTable]:
    """Yield a table for every list of things in the weights of a result.

    Parameters
    ----------
    weights : mapping
        ``summary["weights"]``.

    Examples
    --------
    >>> (sheet,) = list_sheets({"weighed": [{"part": "body", "mass_kg": 0.07, "amount_from": []}]})
    >>> sheet.headings, [str(cell) for cell in sheet.rows[0].cells][0]
    (['part', 'mass'], 'body')
    """
    for key, things in weights.items():
        if not _is_sheet(things):
            continue
        plain = [{name: value for name, value in thing.items() if not isinstance(value, list)} for thing in things]
        headings = list(dict.fromkeys(_split_key(name)[0] for thing in plain for name in thing))
        yield WeightTable(
            mark_name(key),
            headings,
            [
                SheetRow(_mark_cells(thing, headings), _mark_steps(whole))
                for thing, whole in zip(plain, things, strict=True)
            ],
        )


def _is_sheet(value: object) -> bool:
    """Tell whether a value is a list of things that have names for what is told of them."""
    return isinstance(value, list) and bool(value) and all(isinstance(each, Mapping) for each in value)


def _mark_cells(thing: Mapping[str, Any], headings: list[str]) -> list[Markup]:
    """Return what is told of a thing, in the order of the headings."""
    found = {}
    for key, value in thing.items():
        title, dimension = _split_key(key)
        found[title] = escape(find_basis(value)) if key == "basis" else _mark_cell(value, dimension)
    return [found.get(heading, Markup()) for heading in headings]


def _mark_steps(thing: Mapping[str, Any]) -> list[tuple[Markup, Markup, str]]:
    """Return the steps that lead to what is told of a thing."""
    return mark_steps(step for key, value in thing.items() if key.endswith("_from") for step in value)


def _mark_cell(value: object, dimension: str | None) -> Markup:
    """Return one value as it is shown."""
    if isinstance(value, bool) or value is None:
        return escape({True: "yes", False: "no", None: "not told"}[value])
    if isinstance(value, int | float):
        return mark_quantity(value, dimension) if dimension else escape(f"{value:.3g}")
    return mark_sentence(value if isinstance(value, str) else str(value))


def _split_key(key: str) -> tuple[str, str | None]:
    """Return a key in words and the dimension of the SI unit at its end."""
    for suffix, dimension in _SUFFIXES:
        if key.endswith(suffix):
            return mark_name(key.removesuffix(suffix)), dimension
    return mark_name(key), None
