"""Records of numbers and words: how their fields are called in a file, and how they show in a notebook.

A field's type tells its unit: ``sag: Metres`` is a plain float in m, and ``sag_m`` in a file. Nothing here reads or
writes files.
"""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from enum import Enum
from typing import Annotated, Any, NamedTuple, get_args, get_type_hints

from ..materials.short_repr import LONGEST

_LONGEST_TEXT = 32  # of a text in it
_FEW = 3  # numbers that are shown one by one


class FieldUnit(NamedTuple):
    """SI unit of a field, as it stands at the end of its key."""

    symbol: str


class Key(NamedTuple):
    """Key of a field in a file, where it is not field and unit."""

    name: str


class Missing(Enum):
    """How a field that holds nothing is written, where it is not ``null``."""

    LEFT_OUT = "the key is left out"
    EMPTY = "an empty table"


Metres = Annotated[float, FieldUnit("m")]
SquareMetres = Annotated[float, FieldUnit("m2")]
Kilograms = Annotated[float, FieldUnit("kg")]
KilogramsPerMetre = Annotated[float, FieldUnit("kg_per_m")]
Newtons = Annotated[float, FieldUnit("N")]
NewtonsPerMetre = Annotated[float, FieldUnit("N_per_m")]
NewtonMetres = Annotated[float, FieldUnit("N_m")]
Pascals = Annotated[float, FieldUnit("Pa")]
Joules = Annotated[float, FieldUnit("J")]
Radians = Annotated[float, FieldUnit("rad")]
Seconds = Annotated[float, FieldUnit("s")]
MetresPerMetre = Annotated[float, FieldUnit("m_per_m")]
ForceVector = Annotated[tuple[float, float, float], FieldUnit("N")]
FlatPoint = Annotated[tuple[float, float], FieldUnit("m")]
SpacePoint = Annotated[tuple[float, float, float], FieldUnit("m")]

UNITS = {  # of what is carried, borne, used or varied, by dimension
    "force": "N",
    "line_load": "N_per_m",
    "line_stiffness": "N_per_m",
    "stress": "Pa",
    "length": "m",
    "area": "m2",
    "moment": "N_m",
    "angle": "rad",
    "mass": "kg",
    "ratio": "",
}


class SIValue(NamedTuple):
    """A number whose unit differs from record to record; it stands at the end of the key.

    Parameters
    ----------
    value : float
        SI.
    unit : str
        One of the values of ``UNITS``; empty for a ratio.

    Examples
    --------
    >>> measure(500.0, "line_load")
    SIValue(value=500.0, unit='N_per_m')
    >>> measure(500.0, "line_load").dimension
    'line_load'
    """

    value: float
    unit: str

    @property
    def dimension(self) -> str:
        """Dimension in which it is shown, the first of ``UNITS`` with this unit."""
        return next(dimension for dimension, unit in UNITS.items() if unit == self.unit)


def measure(value: float, dimension: str) -> SIValue:
    """Return an SI number with the unit of its dimension, one of ``UNITS``."""
    return SIValue(value, UNITS[dimension])


class RecordField(NamedTuple):
    """One field of a record.

    Parameters
    ----------
    name : str
        In Python.
    kind : type
        What it holds, without what is annotated.
    key : str
        In a file; of an ``SIValue`` without the unit.
    unit : str
        SI unit; empty for ratios, counts and words.
    missing : Missing or None
        How nothing is written; None is ``null``.
    """

    name: str
    kind: Any
    key: str
    unit: str
    missing: Missing | None


_KNOWN: dict[type, tuple[RecordField, ...]] = {}  # fields of the classes that were looked at


@dataclass(frozen=True, repr=False)
class Record:
    """Numbers and words that belong together; a notebook shows them short.

    Examples
    --------
    >>> @dataclass(frozen=True, repr=False)
    ... class Hang(Record):
    ...     sag: Metres
    ...     verdict: str
    >>> Hang(0.673123, "ok")
    Hang(sag=0.673 m, verdict='ok')
    >>> [item.key for item in list_fields(Hang)]
    ['sag_m', 'verdict']
    """

    def __repr__(self) -> str:
        """Return the class with its fields in three digits, cut where it gets long."""
        shown = ", ".join(_show_field(item, getattr(self, item.name)) for item in list_fields(type(self)))
        line = f"{type(self).__name__}({shown})"
        return line if len(line) <= LONGEST else f"{line[: LONGEST - len('...)')]}...)"


def list_fields(kind: type[Record]) -> tuple[RecordField, ...]:
    """Return the fields of a class of records, in their order.

    Parameters
    ----------
    kind : type
        A frozen dataclass of a ``Record``.

    Returns
    -------
    tuple of RecordField
        Names, keys and units.
    """
    if kind not in _KNOWN:
        hints = get_type_hints(kind, include_extras=True)
        _KNOWN[kind] = tuple(_read_field(item.name, hints[item.name]) for item in fields(kind))
    return _KNOWN[kind]


def _read_field(name: str, hint: Any) -> RecordField:  # noqa: ANN401
    """Return what the annotated type of a field tells."""
    kind, extras = _split_hint(hint)
    unit = next((extra.symbol for extra in extras if isinstance(extra, FieldUnit)), "")
    key = next((extra.name for extra in extras if isinstance(extra, Key)), f"{name}_{unit}" if unit else name)
    return RecordField(name, kind, key, unit, next((extra for extra in extras if isinstance(extra, Missing)), None))


def _split_hint(hint: Any) -> tuple[Any, list[object]]:  # noqa: ANN401
    """Return a type without what is annotated, and that; of ``Metres | None`` that of the first."""
    extras: list[object] = list(getattr(hint, "__metadata__", ()))
    kind = hint.__origin__ if extras else hint
    for part in get_args(kind):
        extras += getattr(part, "__metadata__", ())
    return kind, extras


def _show_field(item: RecordField, value: object) -> str:
    """Return a field as it shows in a notebook."""
    return f"{item.name}={_show(value)}{f' {item.unit}' if item.unit and value is not None else ''}"


def _show(value: object) -> str:
    """Return a value in a few characters."""
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, SIValue):
        return f"{value.value:.3g} {value.unit}".rstrip()
    if isinstance(value, str):
        return repr(value if len(value) <= _LONGEST_TEXT else value[: _LONGEST_TEXT - 3] + "...")
    if isinstance(value, float):
        return f"{value:.3g}"
    if isinstance(value, Record):
        return f"{type(value).__name__}(...)"
    if isinstance(value, tuple) and len(value) <= _FEW and all(isinstance(each, float) for each in value):
        return f"({', '.join(map(_show, value))})"
    return f"<{len(value)}>" if isinstance(value, tuple | Mapping) else repr(value)
