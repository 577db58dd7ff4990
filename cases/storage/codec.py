"""Records to plain dictionaries and back: the key of a field is its name and its unit.

Nothing is guessed: a key that is missing and a value of the wrong kind end in one sentence that names the key.
"""

from collections.abc import Mapping
from enum import Enum
from math import inf, isfinite
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, TypeVar, Union, get_args, get_origin

from ..record import UNITS, Missing, Record, RecordField, SIValue, list_fields

_Kind = TypeVar("_Kind", bound=Record)
_LONGEST = 40  # characters of a value shown in a sentence


class DecodeError(ValueError):
    """Something that is not what a record holds; the message is the end of a sentence that names the key."""


class MissingKeyError(DecodeError):
    """A key that is not there, as in a file of an older version; the message is the key."""


def encode(record: Record) -> dict[str, Any]:
    """Return a record as a dictionary of plain numbers, words, lists and dictionaries.

    Parameters
    ----------
    record : Record
        Of any class.

    Returns
    -------
    dict
        Keys in the order of the fields; a ``Sentence`` stays one.

    Examples
    --------
    >>> from tautlay.cases.judging.forces import Anchors
    >>> encode(Anchors((-300.0, 0.0, 400.0), (300.0, 0.0, 400.0)))
    {'head_tree_N': [-300.0, 0.0, 400.0], 'foot_tree_N': [300.0, 0.0, 400.0]}
    """
    found: dict[str, Any] = {}
    for item in list_fields(type(record)):
        value = getattr(record, item.name)
        if isinstance(value, SIValue):
            found[_name_key(item, value.unit)] = value.value
        elif value is not None:
            found[item.key] = _encode_value(value)
        elif item.missing is not Missing.LEFT_OUT:
            found[item.key] = {} if item.missing is Missing.EMPTY else None
    return found


def decode(kind: type[_Kind], found: object, where: str = "") -> _Kind:
    """Return the record that a dictionary describes.

    Parameters
    ----------
    kind : type
        Class of the record.
    found : object
        As :func:`encode` gives it, or as JSON gives it back; keys that no field has are passed over.
    where : str
        Key under which it stands, for the sentence.

    Returns
    -------
    Record
        Equal to what was encoded.

    Raises
    ------
    MissingKeyError
        For a key that is not there.
    DecodeError
        For a value of another kind, and a number that is not finite.

    Examples
    --------
    >>> from tautlay.cases.judging.forces import Anchors
    >>> decode(Anchors, {"head_tree_N": [-300, 0, 400], "foot_tree_N": [300, 0, "400"]})
    Traceback (most recent call last):
    tautlay.cases.storage.codec.DecodeError: foot_tree_N[2] is '400', not a number
    """
    if not isinstance(found, dict):
        raise _refuse(where, found, "a table")
    return kind(**{item.name: _decode_field(item, found, where) for item in list_fields(kind)})


def _encode_value(value: object) -> object:
    """Return one value in plain."""
    if isinstance(value, Record):
        return encode(value)
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, tuple):
        return [_encode_value(each) for each in value]
    if isinstance(value, Mapping):
        return {_encode_value(key): _encode_value(each) for key, each in value.items()}
    return value


def _name_key(item: RecordField, unit: str) -> str:
    """Return the key of a field whose unit differs from record to record."""
    return f"{item.key}_{unit}" if unit else item.key


def _decode_field(item: RecordField, table: Mapping[str, object], where: str) -> object:
    """Return what a table holds of one field."""
    path = f"{where}.{item.key}" if where else item.key
    if SIValue in (item.kind, *get_args(item.kind)):
        found = {unit: key for unit in UNITS.values() if (key := _name_key(item, unit)) in table}
        for unit, key in found.items():
            return SIValue(_decode_number(table[key], path), unit)
    elif item.key in table:
        value = table[item.key]
        return None if item.missing is Missing.EMPTY and value == {} else _decode_value(item.kind, value, path)
    if item.missing is Missing.LEFT_OUT:
        return None
    raise MissingKeyError(path)


def _decode_value(kind: Any, value: object, where: str) -> object:  # noqa: ANN401
    """Return a value as the kind a field asks for."""
    origin, inside = get_origin(kind), get_args(kind)
    if origin is Annotated:
        return _decode_value(inside[0], value, where)
    if origin in (Union, UnionType):
        return None if value is None else _decode_value(inside[0], value, where)
    if origin is Literal:
        return _choose(value, inside, where)
    if origin is tuple:
        return _decode_tuple(inside, value, where)
    if origin is not None:
        return _decode_mapping(inside, value, where)
    if issubclass(kind, Record):
        return decode(kind, value, where)
    if issubclass(kind, Enum):
        return kind(_choose(value, [each.value for each in kind], where))
    return _decode_number(value, where) if kind is float else _decode_plain(kind, value, where)


def _choose(value: object, allowed: Any, where: str) -> object:  # noqa: ANN401
    """Return a word that is one of those allowed."""
    if value not in allowed:
        raise _refuse(where, value, f"one of {', '.join(map(str, allowed))}")
    return value


def _decode_tuple(kinds: tuple[Any, ...], value: object, where: str) -> tuple[object, ...]:
    """Return a list as a tuple, of any length or of that of ``kinds``."""
    if not isinstance(value, list):
        raise _refuse(where, value, "a list")
    each = [kinds[0]] * len(value) if kinds[-1] is Ellipsis else list(kinds)
    if len(each) != len(value):
        raise _refuse(where, value, f"a list of {len(each)}")
    rows = enumerate(zip(each, value, strict=True))
    return tuple(_decode_value(kind, one, f"{where}[{place}]") for place, (kind, one) in rows)


def _decode_mapping(kinds: tuple[Any, ...], value: object, where: str) -> dict[object, object]:
    """Return a table whose keys are words or those of an enumeration."""
    if not isinstance(value, dict):
        raise _refuse(where, value, "a table")
    return {
        _decode_value(kinds[0], key, where): _decode_value(kinds[1], one, f"{where}.{key}")
        for key, one in value.items()
    }


def _decode_number(value: object, where: str) -> float:
    """Return a finite number."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise _refuse(where, value, "a number")
    try:
        number = float(value)
    except OverflowError:  # a whole number of more than 308 digits
        number = inf
    if not isfinite(number):
        raise _refuse(where, value, "a finite number")
    return number


_NOUNS: dict[type, str] = {str: "a text", int: "a whole number", bool: "true or false", NoneType: "empty"}


def _decode_plain(kind: type, value: object, where: str) -> object:
    """Return a text, a whole number, true or false, or nothing."""
    if not isinstance(value, kind) or (kind is int and isinstance(value, bool)):
        raise _refuse(where, value, _NOUNS[kind])
    return value


def _refuse(where: str, value: object, wanted: str) -> DecodeError:
    """Return that something is not what it ought to be."""
    shown = {dict: "a table", list: "a list", NoneType: "empty"}.get(type(value), repr(value))
    return DecodeError(f"{where or 'the whole'} is {shown[:_LONGEST]}, not {wanted}")
