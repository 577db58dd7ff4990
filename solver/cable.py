"""Cords that pull and never push."""

import copy
from typing import NamedTuple, Self

import numpy as np

from . import cable_kernel as kernel
from .element import Floats, Smoothed, StiffnessModel
from .straight_member import ForceSign, StraightMember
from .words import show_count, show_range

_LEAST = 1.5e-7  # of EA: a smear of strain by 4e-4, below which cords are as they are


class CableResult(NamedTuple):
    """Tension (k,) N and length (k,) m of each segment."""

    tension: Floats
    length: Floats

    def __repr__(self) -> str:
        """Return one line."""
        return f"CableResult({show_count(len(self.tension), 'segment')}, tension {show_range(self.tension, 'N')})"


class Cable(StraightMember):
    r"""Straight cord segments that carry tension only.

    .. math:: N = EA\,(l - L_0) / L_0

    with the stiffness EA, the length l and the unstressed length :math:`L_0`; zero where a member would push.

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

    Notes
    -----
    A hanging cord is a chain of segments: its sag converges with the square of their length.

    Examples
    --------
    >>> import numpy as np
    >>> cord = Cable([[0, 1]], ea=20e3, rest_length=1.0)
    >>> cord.result(np.array([[0, 0, 0], [1.01, 0, 0]], float)).tension.round(6)
    array([200.])
    """

    sense = ForceSign.TENSION
    smooths = True
    _extent = 1.0  # m, of all its segments together as the structure first stands

    def attach(self, positions: Floats) -> Self:
        """Return this cord with its extent at ``positions``."""
        placed = copy.copy(self)
        placed._extent = float(np.ptp(positions[self.nodes], axis=0).max())
        return placed

    def smooth(self, positions: Floats, mu: float, before: kernel.CordPull | None, force: Floats) -> Smoothed:
        """Add the smoothed pull to ``force`` (n, 3) N and return the smooth energy; see ``cable_kernel``."""
        whole = self._spread(mu)
        if whole == 0.0:
            return super().smooth(positions, mu, before, force)
        pull = kernel.begin_pull(positions, self._members, whole) if before is None else before
        return Smoothed(*kernel.smooth(positions, self._members, pull, whole, force))

    def linearise(
        self, positions: Floats, mu: float, here: kernel.CordPull, model: StiffnessModel, lead: Floats
    ) -> list[Floats]:
        """Return member stiffness matrices (k, 6, 6), N/m; add how the force changes at rest to ``lead`` (n, 3) N."""
        whole = self._spread(mu)
        if whole == 0.0:
            return super().linearise(positions, mu, here, model, lead)
        return [kernel.linearise(positions, self._members, here, whole, lead)]

    def _spread(self, mu: float) -> float:
        """Return the product of tension and slack, N, or zero where so little would change nothing."""
        whole = mu * self._extent
        return whole if whole > _LEAST * float(self.ea.min()) else 0.0

    def result(self, positions: Floats) -> CableResult:
        """Return tension and length of every segment."""
        length, force = self.lengths_and_forces(positions)
        return CableResult(force, length)
