"""Invented records: what a test does not name holds zeros, first choices and nothing."""

from collections.abc import Mapping
from enum import Enum
from types import NoneType, UnionType
from typing import Annotated, Literal, Union, get_args, get_origin

from tautlay.cases.record import Record, SIValue, list_fields


def make_record(kind, **told):
    """Return a record of a class with some of its fields told."""
    return kind(**{item.name: told[item.name] if item.name in told else fill(item.kind) for item in list_fields(kind)})


def fill(kind):
    """Return the plainest value of a type."""
    origin, inside = get_origin(kind), get_args(kind)
    if origin is Annotated:
        return fill(inside[0])
    if origin in (Union, UnionType) or kind is NoneType:
        return None
    if origin is Literal:
        return inside[0]
    if origin is tuple:
        return () if inside[-1] is Ellipsis else tuple(map(fill, inside))
    if origin is Mapping or (origin is not None and issubclass(origin, Mapping)):
        return {}
    if kind is SIValue:
        return SIValue(0.0, "N")
    if issubclass(kind, Record):
        return make_record(kind)
    return next(iter(kind)) if issubclass(kind, Enum) else kind()
