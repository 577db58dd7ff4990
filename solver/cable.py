"""Cords that pull and never push."""

from typing import NamedTuple

from .element import Floats
from .straight_member import ForceSign, StraightMember
from .words import show_count, show_range


class CableResult(NamedTuple):
    """Tension (k,) N and length (k,) m of each segment."""

    tension: Floats
    length: Floats

    def __repr__(self) -> str:
        """Return one line."""
        return f"CableResult({show_count(len(self.tension), 'segment')}, tension {show_range(self.tension, 'N')})"


class Cable(StraightMember):
    """Straight cord segments that carry tension only; see :class:`StraightMember` for the formula.

    A hanging cord is a chain of segments: its sag converges with the square of their length.

    Examples
    --------
    >>> import numpy as np
    >>> cord = Cable([[0, 1]], ea=20e3, rest_length=1.0)
    >>> cord.result(np.array([[0, 0, 0], [1.01, 0, 0]], float)).tension.round(6)
    array([200.])
    """

    sense = ForceSign.TENSION

    def result(self, positions: Floats) -> CableResult:
        """Return tension and length of every segment."""
        length, force = self.lengths_and_forces(positions)
        return CableResult(force, length)
