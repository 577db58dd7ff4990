"""An issue of a design: what is wrong, and where to change it."""

from dataclasses import dataclass

from ..materials.short_repr import write_repr


@dataclass(frozen=True)
class GeometryIssue:
    """One sentence and the fields it is about.

    Parameters
    ----------
    sentence : str or Sentence
        What is wrong, with the numbers and what to change; a :class:`~tautlay.materials.Sentence` can be written in
        other than metric units.
    keys : tuple of str
        Fields of ``Hammock``, such as ``head_bar.length``, or of the person, such as ``person.stature``; first what
        is most likely to be changed.

    Examples
    --------
    >>> flaw = GeometryIssue("The head bar is too long.", ("head_bar.length", "body.head_width"))
    >>> print(flaw, flaw.keys[0])
    The head bar is too long. head_bar.length
    """

    sentence: str
    keys: tuple[str, ...]

    def __repr__(self) -> str:
        return write_repr(self, *self.keys[:1], self.sentence)

    def __str__(self) -> str:
        return self.sentence
