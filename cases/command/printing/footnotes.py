"""Marks in a table for what rests on weak ground."""

from collections.abc import Collection

MARKS = {"memory": "*", "judgement": "~"}
_MEANT = {"memory": "* rests on a value from memory", "judgement": "~ rests on a judgement"}


def explain_marks(bases: Collection[str]) -> list[str]:
    """Return what the marks mean that stand for some of these bases.

    Examples
    --------
    >>> explain_marks({"seen", "memory"})
    ['* rests on a value from memory']
    """
    return [text for basis, text in _MEANT.items() if basis in bases]
