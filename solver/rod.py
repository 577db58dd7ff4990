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
    r"""Straight members that carry force both ways.

    .. math:: N = EA\,(l - L_0) / L_0

    with the stiffness EA, the length l and the unstressed length :math:`L_0`.

    Parameters
    ----------
    segments : (k, 2) int
        Nodes at the two ends of each.
    ea : float or (k,)
        Axial stiffness, N: modulus times cross section, or force over strain.
    rest_length : float or (k,)
        Unstressed length of each segment, m; one number is the length of every segment, not of all together.
    mass : float or (k,)
        kg per metre of unstressed length.

    Raises
    ------
    ValueError
        For wrong shapes, a member from a node to itself, or numbers that are not positive.

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
