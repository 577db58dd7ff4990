"""Marks in a table for uncertain values."""

from collections.abc import Collection

MARKS = {"memory": "*", "judgement": "~"}
_MEANT = {"memory": "* no source found: {advice}", "judgement": "~ our estimate"}


def explain_marks(bases: Collection[str], advice: str = "test a sample") -> list[str]:
    """Return the meaning of the marks for some of these bases.

    Parameters
    ----------
    bases : collection of str
        How well each value is known, as in the library.
    advice : str
        What to do about a value without a source.

    Examples
    --------
    >>> explain_marks({"seen", "memory"})
    ['* no source found: test a sample']
    """
    return [text.format(advice=advice) for basis, text in _MEANT.items() if basis in bases]
