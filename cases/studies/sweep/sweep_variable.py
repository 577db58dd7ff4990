"""Variables of a sweep, and their values."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

from ....materials import DIMENSIONS, Library, Material, MaterialError, QuantityError, parse_quantity, show_value
from ....materials.short_repr import write_repr
from ....materials.toml_lines import KeyPath
from ....materials.units import find_dimension
from .setting import Setting, read_key
from .sweep_form import FindTable, VaryTable

_DIGITS = 9  # of values between two ends
_FORMULA = re.compile(r"[=@]|[+-](?![0-9.]+[ A-Za-z0-9/^%]*$)")  # a spreadsheet computes, or runs, what begins so
_SHOWN = 4  # values of a list in a message
_HUGE = 1e9  # beyond it not all digits of a number would be written


class Option(NamedTuple):
    """One value of what varies.

    Parameters
    ----------
    label : str
        For tables and plots.
    settings : tuple of (path, value)
        Keys of the design, and what they are set to; empty leaves the design unchanged.
    """

    label: str
    settings: tuple[Setting, ...]

    def __repr__(self) -> str:
        return write_repr(self, self.label)


AS_DESIGNED = Option("as designed", ())


class Span(NamedTuple):
    """Everything between two ends, in the unit that is written after a number, or plain numbers."""

    low: float
    high: float
    unit: str

    def write(self, share: float) -> str | float | int:
        """Return the value that lies ``share`` of the way from the low to the high end, as a design file says it."""
        text = f"{self.low + (self.high - self.low) * share:.{_DIGITS}g}"
        return f"{text} {self.unit}" if self.unit else float(text)


class LinkedSpan(NamedTuple):
    """Spans of several keys that vary together, each between two ends of its own."""

    spans: tuple[Span, ...]

    def write(self, share: float) -> list[str | float | int]:
        """Return the value of each key that lies ``share`` of the way from its low to its high end.

        Examples
        --------
        >>> LinkedSpan((Span(80.0, 90.0, "cm"), Span(2.0, 12.0, "cm"))).write(0.5)
        ['85 cm', '7 cm']
        """
        return [span.write(share) for span in self.spans]


@dataclass(frozen=True)
class SweepVariable:
    """One thing that varies.

    Parameters
    ----------
    name : str
        Its name.
    paths : tuple of KeyPath
        Keys that are set together.
    options : tuple of Option
        Values; empty for a span of which samples are taken.
    span : Span, LinkedSpan or None
        Two ends, where any value in between may be taken.
    """

    name: str
    paths: tuple[KeyPath, ...]
    options: tuple[Option, ...]
    span: Span | LinkedSpan | None = None

    def __repr__(self) -> str:
        return write_repr(self, self.name, *(option.label for option in self.options))

    def pick(self, share: float) -> Option:
        """Return the value at ``share``, from 0 to below 1, of everything that may be chosen."""
        if self.span is None:
            return self.options[int(share * len(self.options))]
        return make_option(self.paths, self.span.write(share))


def make_option(paths: tuple[KeyPath, ...], value: Any, label: str = "") -> Option:  # noqa: ANN401
    """Return an option that sets all keys to one value, or each to its own of a list."""
    values = value if isinstance(value, list) and len(paths) > 1 else [value] * len(paths)
    written = label or ", ".join(dict.fromkeys(_write_label(each) for each in values))
    return Option(written, tuple(zip(paths, values, strict=True)))


def _write_label(value: Any) -> str:  # noqa: ANN401
    """Return a value as it stands in a table of results."""
    if isinstance(value, dict):
        return ", ".join(f"{key} {_write_label(each)}" for key, each in value.items()) or "empty"
    return value if isinstance(value, str) else show_value(value)


def read_choice(
    table: VaryTable,
    sources: Mapping[str, Material],
    library: Library,
    *,
    sampled: bool,
    repeated: bool = False,
) -> SweepVariable:
    """Return what a ``[[vary]]`` describes.

    Parameters
    ----------
    table : VaryTable
        As read.
    sources : mapping of str to Material
        Materials of the design by key, to know in which category a ``find`` looks.
    library : Library
        Where it looks.
    sampled : bool
        Whether a span needs no ``count``.
    repeated : bool
        Whether a value may stand there more than once, as in pairs.

    Raises
    ------
    ValueError
        One sentence.
    """
    dotted = tuple(table.keys) if table.key is None else (table.key,)
    if not dotted or (table.key is not None and table.keys):
        raise ValueError('write either key = "body.fabric", or keys = [...] for keys that vary together.')
    if len(set(dotted)) < len(dotted):
        raise ValueError("keys has a key twice. Write it once.")
    paths = tuple(read_key(each) for each in dotted)
    name = table.name or " and ".join(dotted)
    _check_cell(name, "name")
    ways = [bool(table.values), table.find is not None, table.low is not None or table.high is not None]
    if sum(ways) != 1:
        raise ValueError("write one of values = [...], find = {...}, or from and to.")
    if table.count is not None and not ways[2]:
        raise ValueError("count belongs to from and to.")
    if ways[2]:
        return _read_span(table, name, paths, sampled=sampled)
    found = (
        list(table.values) if ways[0] else [each.name for each in _find_materials(table.find, dotted, sources, library)]
    )
    return SweepVariable(name, paths, _make_options(found, table.labels, paths, repeated=repeated))


def _make_options(
    values: list[Any], labels: list[str], paths: tuple[KeyPath, ...], *, repeated: bool
) -> tuple[Option, ...]:
    """Return the options of listed values."""
    if labels and len(labels) != len(values):
        raise ValueError(f"there are {len(labels)} labels for {len(values)} values. Write one for each.")
    for value in values:
        if len(paths) > 1 and isinstance(value, list) and len(value) != len(paths):
            shown = _write_list(value)
            raise ValueError(f"{shown} has {len(value)} values for {len(paths)} keys. Write one for each key.")
    options = tuple(make_option(paths, value, labels[place] if labels else "") for place, value in enumerate(values))
    for option in options:
        _check_cell(option.label, "label")
    if any(option.label == AS_DESIGNED.label for option in options):
        raise ValueError(f"{AS_DESIGNED.label} is the label of the unchanged design. Choose another label.")
    first = {option.label: option for option in reversed(options)}
    twice = {option.label for option in options if first[option.label] is not option}
    if repeated:
        twice = {label for label in twice if any(o.label == label and o != first[label] for o in options)}
    if twice:
        raise ValueError(f"{' and '.join(sorted(twice))} appears twice. Write each value once, with different labels.")
    return options


def _check_cell(text: str, noun: str) -> None:
    """Raise for text that a spreadsheet would read as a formula in a CSV file."""
    if _FORMULA.match(text):
        raise ValueError(f"a spreadsheet would read {show_value(text)} as a formula. Choose another {noun}.")


def _write_list(values: list[Any]) -> str:
    """Return a list for a message, shortened."""
    return f"[{', '.join(map(show_value, values[:_SHOWN]))}{', ...' if len(values) > _SHOWN else ''}]"


def _find_materials(
    find: FindTable | None, dotted: tuple[str, ...], sources: Mapping[str, Material], library: Library
) -> tuple[Material, ...]:
    """Return the materials that meet every condition, of the categories the keys take now."""
    assert find is not None
    named = [sources.get(key) or sources.get(key.removesuffix(".section")) for key in dotted]
    categories = {material.category for material in named if material is not None}
    if len(categories) != 1 or None in named:
        known = ", ".join(sources)
        raise ValueError(f"find needs keys that name materials of one category: {known}.")
    category = categories.pop()
    try:
        found = library.select(
            category, text=find.text, kind=find.kind, minimum=dict(find.minimum), maximum=dict(find.maximum)
        )
    except (MaterialError, QuantityError) as error:
        raise ValueError(str(error)) from None
    if not found:
        raise ValueError(f"no {category} of the library meets find. `tautlay materials {category}` lists all.")
    return found


def _read_span(table: VaryTable, name: str, paths: tuple[KeyPath, ...], *, sampled: bool) -> SweepVariable:
    """Return a choice between two ends."""
    if table.low is None or table.high is None:
        raise ValueError('from and to belong together. Example: from = "12 cm", to = "20 cm"')
    if table.labels:
        raise ValueError("labels belong to values.")
    linked = len(paths) > 1 and (isinstance(table.low, list) or isinstance(table.high, list))
    span, whole = (
        (_link_spans(table.low, table.high, len(paths)), False) if linked else _find_span(table.low, table.high)
    )
    if not isinstance(span, LinkedSpan) and span.low == span.high:
        raise ValueError("from and to are the same. Write two different ends.")
    if table.count is None:
        if not sampled:
            raise ValueError("count is missing: number of values between from and to. Example: count = 5")
        return SweepVariable(name, paths, (), span)
    values: list[Any] = [span.write(place / (table.count - 1)) for place in range(table.count)]
    if whole:
        if any(float(value) != round(float(value)) for value in values):
            raise ValueError(f"{table.count} values from {table.low} to {table.high} are not whole numbers.")
        values = [round(float(value)) for value in values]
    return SweepVariable(name, paths, tuple(make_option(paths, value) for value in values))


def _link_spans(low: Any, high: Any, count: int) -> LinkedSpan:  # noqa: ANN401
    """Return the ends of several keys, one of each list for each key."""
    if not (isinstance(low, list) and isinstance(high, list) and len(low) == len(high) == count):
        raise ValueError(f"from and to must be lists of {count} values each, one for each key.")
    linked = LinkedSpan(tuple(_find_span(*ends)[0] for ends in zip(low, high, strict=True)))
    if all(span.low == span.high for span in linked.spans):
        raise ValueError("from and to are the same. Write two different ends.")
    return linked


def _find_span(low: Any, high: Any) -> tuple[Span, bool]:  # noqa: ANN401
    """Return both ends in SI, and whether they are whole numbers."""
    plain = [isinstance(end, int | float) and not isinstance(end, bool) for end in (low, high)]
    if all(plain):
        if not all(abs(end) < _HUGE for end in (low, high)):  # not a number is an error too
            raise ValueError(f"{show_value(low)} and {show_value(high)} are not two ordinary numbers.")
        return Span(float(low), float(high), ""), isinstance(low, int) and isinstance(high, int)
    if not (isinstance(low, str) and isinstance(high, str)):
        raise ValueError("from and to must both be numbers, or both be quantities with a unit in quotes.")
    for name in DIMENSIONS:
        try:
            low_end, high_end = (parse_quantity(end, name, signed=True) for end in (low, high))
        except QuantityError:
            continue  # of another kind
        unit, one = _find_unit(low, name)
        return Span(low_end / one, high_end / one, unit), False
    shown = f"{show_value(low)} and {show_value(high)}"
    raise ValueError(f'{shown} are not two quantities of one kind. Example: "12 cm" and "20 cm"')


def _find_unit(text: str, dimension: str) -> tuple[str, float]:
    """Return the unit in which values are written, if it may be the one at the end of a text, and one of it in SI."""
    known = [name for name, unit in find_dimension(dimension).units.items() if name and not unit.inverse]
    fitting = [name for name in known if text.strip().endswith(name)]
    unit = max(fitting, key=len) if fitting else known[0]  # another spelling, or a unit that runs the other way
    return unit, parse_quantity(f"1 {unit}", dimension)
