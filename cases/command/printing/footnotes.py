"""Marks in a table for uncertain values."""

from collections.abc import Collection

MARKS = {"memory": "*", "judgement": "~"}
_MEANT = {"memory": "* unverified: test yours", "judgement": "~ our estimate"}


def explain_marks(bases: Collection[str]) -> list[str]:
    """Return the meaning of the marks for some of these bases.

    Examples
    --------
    >>> explain_marks({"seen", "memory"})
    ['* unverified: test yours']
    """
    return [text for basis, text in _MEANT.items() if basis in bases]
