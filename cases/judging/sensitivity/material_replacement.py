"""Materials of a record, found and replaced wherever they stand in it."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar, cast

from ....materials import Material

_T = TypeVar("_T")


def list_materials(*records: object) -> tuple[Material, ...]:
    """Return every material in some records, each once.

    Parameters
    ----------
    *records : object
        Dataclasses, tuples of them, or anything else, in which nothing is looked for.

    Returns
    -------
    tuple of Material
        In the order in which they are found.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> [material.category for material in list_materials(example_hammock())]
    ['fabric', 'cord', 'tube', 'webbing']
    """
    return tuple(dict.fromkeys(each for record in records for each in _walk(record)))


def _walk(record: object) -> Iterator[Material]:
    """Yield the materials in a record."""
    if isinstance(record, Material):
        yield record
    elif isinstance(record, tuple):
        for each in record:
            yield from _walk(each)
    elif is_dataclass(record):
        for item in fields(record):
            yield from _walk(getattr(record, item.name))


def swap_material(record: _T, old: Material, new: Material) -> _T:
    """Return a record in which ``new`` stands wherever ``old`` stood.

    Parameters
    ----------
    record : object
        As in :func:`list_materials`.
    old, new : Material
        Of the same category.

    Examples
    --------
    >>> from dataclasses import replace
    >>> from tautlay.hammock import example_hammock
    >>> hammock = example_hammock()
    >>> softer = replace(hammock.channel.cord, ea=50e3)
    >>> swapped = swap_material(hammock, hammock.channel.cord, softer)
    >>> swapped.channel.cord.ea, swapped.suspension.foot.leg.ea, swapped.body is hammock.body
    (50000.0, 50000.0, True)
    """
    found: Any = record
    if old not in list_materials(record):
        return record
    if isinstance(record, Material):
        found = new
    elif isinstance(record, tuple):
        found = tuple(swap_material(each, old, new) for each in record)
    else:
        changed = {item.name: swap_material(getattr(record, item.name), old, new) for item in fields(found)}
        found = replace(found, **changed)
    return cast(_T, found)
