"""Rods that carry tension and compression alike."""

from typing import NamedTuple

from .element import Floats
from .straight_member import ForceSign, StraightMember
from .words import show_count, show_range


class RodResult(NamedTuple):
    """Axial force (k,) N, tension positive, and length (k,) m of each rod."""

    force: Floats
    length: Floats

    def __repr__(self) -> str:
        """Return one line."""
        return f"RodResult({show_count(len(self.force), 'rod')}, force {show_range(self.force, 'N')})"


class Rod(StraightMember):
    """Straight members that carry force both ways; see :class:`StraightMember` for the formula.

    Examples
    --------
    >>> import numpy as np
    >>> rod = Rod([[0, 1]], ea=1e6, rest_length=1.0)
    >>> rod.result(np.array([[0, 0, 0], [0, 0.999, 0]], float)).force.round(6)
    array([-1000.])
    """

    sense = ForceSign.BOTH

    def result(self, positions: Floats) -> RodResult:
        """Return force and length of every rod."""
        length, force = self.lengths_and_forces(positions)
        return RodResult(force, length)
