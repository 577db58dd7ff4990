"""Marks in a table for uncertain values."""

from collections.abc import Collection, Iterator

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


def write_footnotes(rest: str, bases: Collection[str]) -> Iterator[str]:
    """Yield one line below a table of strengths, or none: what is left out, and the meaning of the marks.

    Parameters
    ----------
    rest : str
        What is left out; empty where nothing is.
    bases : collection of str
        How well each value shown is known.

    Examples
    --------
    >>> list(write_footnotes("2 more.", {"judgement"})), list(write_footnotes("", {"seen"}))
    (['2 more.  ~ our estimate'], [])
    """
    if notes := [*filter(None, [rest]), *explain_marks(bases)]:
        yield "  ".join(notes)
