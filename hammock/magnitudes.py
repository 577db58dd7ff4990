"""Numbers that cannot be the size or the weight of anything."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from math import isfinite
from typing import TYPE_CHECKING

from .geometry_issue import GeometryIssue
from .loaded_line import LoadedLine

if TYPE_CHECKING:
    from _typeshed import DataclassInstance


def check_magnitudes(record: "DataclassInstance", path: str) -> Iterator[GeometryIssue]:
    """Yield an issue for every number that no hammock and no person can have.

    Parameters
    ----------
    record : dataclass
        A hammock, a person or a part of one.
    path : str
        Its name in the messages, such as ``hammock`` or ``person``.

    Yields
    ------
    GeometryIssue
        One for each number.

    Examples
    --------
    >>> from tautlay.hammock import Arc
    >>> [str(flaw) for flaw in check_magnitudes(Arc(-0.1), "hammock.body.left_arc")]
    ['hammock.body.left_arc.depth is -0.1. It must be a finite number, not negative.']
    """
    may_be_zero = {"depth", "lock_length", "set_in", "grain", "head_from_bar", "knee_pad", "offset", "friction"}
    may_be_zero |= {"pillow", "overlap", "play", "bow", "eccentricity", "opening", "corner_room", "darts"}
    for item in fields(record):
        value, name = getattr(record, item.name), f"{path}.{item.name}"
        if is_dataclass(value) and not isinstance(value, type):
            if not hasattr(value, "provenance"):  # materials have checked themselves
                yield from check_magnitudes(value, name)
        elif isinstance(value, tuple) and not isinstance(value, LoadedLine):  # that one was computed
            for place, each in enumerate(value):
                yield from check_magnitudes(each, f"{path}.part.{place}")
        elif isinstance(value, int | float) and not isinstance(value, bool):
            if not isfinite(value) or (value < 0 and item.name not in ("grain", "offset", "head_from_bar")):
                sentence = f"{name} is {value:g}. It must be a finite number, not negative."
                yield GeometryIssue(sentence, (name.removeprefix("hammock."),))
            elif value == 0 and item.name not in may_be_zero:
                yield GeometryIssue(f"{name} is zero. It must be greater than zero.", (name.removeprefix("hammock."),))
