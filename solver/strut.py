"""Spreader bars: members that push and never pull."""

from typing import NamedTuple

from .element import Floats
from .straight_member import ForceSign, StraightMember
from .words import show_count, show_range


class StrutResult(NamedTuple):
    """Thrust (k,) N, compression positive, and length (k,) m of each strut."""

    thrust: Floats
    length: Floats

    def __repr__(self) -> str:
        """Return one line."""
        return f"StrutResult({show_count(len(self.thrust), 'strut')}, thrust {show_range(self.thrust, 'N')})"


class Strut(StraightMember):
    r"""Straight members that carry compression only; they stay straight, and buckling is checked afterwards.

    .. math:: N = EA\,(l - L_0) / L_0

    with the stiffness EA, the length l and the unstressed length :math:`L_0`; zero where a member would pull.

    Parameters
    ----------
    segments : (k, 2) int
        Nodes at the two ends of each.
    ea : float or (k,)
        Axial stiffness, N: modulus times cross section, or force over strain.
    rest_length : float or (k,)
        Unstressed length of each segment, m; one number is the length of every segment, not of all together.

    Raises
    ------
    ValueError
        For wrong shapes, a member from a node to itself, or numbers that are not positive.

    Examples
    --------
    >>> import numpy as np
    >>> bar = Strut([[0, 1]], ea=1e6, rest_length=0.9)
    >>> bar.result(np.array([[0, 0, 0], [0, 0.8991, 0]], float)).thrust.round(6)
    array([1000.])
    """

    sense = ForceSign.COMPRESSION

    def __init__(self, segments: object, ea: object, rest_length: object) -> None:
        super().__init__(segments, ea, rest_length)

    def result(self, positions: Floats) -> StrutResult:
        """Return thrust and length of every strut."""
        length, force = self.lengths_and_forces(positions)
        return StrutResult(-force + 0.0, length)
