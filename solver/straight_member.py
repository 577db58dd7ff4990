"""What cables, struts and rods have in common: a straight member between two nodes."""

from enum import IntEnum

import numpy as np

from . import line_kernel as kernel
from .element import Element, Floats, StiffnessModel, cast_nodes, cast_positive
from .words import show_count, show_range


class ForceSign(IntEnum):
    """Which sign of axial force a member can carry."""

    BOTH = 0
    TENSION = 1
    COMPRESSION = -1


class StraightMember(Element):
    r"""Linear elastic member, force :math:`N = EA\,(l-L_0)/L_0` where its sense allows it.

    Parameters
    ----------
    segments : (k, 2) int
        Nodes at the two ends.
    ea : float or (k,)
        Axial stiffness, N.
    rest_length : float or (k,)
        Unstressed length, m.
    mass : float or (k,)
        kg per metre of rest length.

    Raises
    ------
    ValueError
        For wrong shapes, a member from a node to itself, or numbers that are not positive.
    """

    sense: ForceSign

    def __init__(self, segments: object, ea: object, rest_length: object, *, mass: object = 0.0) -> None:
        self.connectivity = cast_nodes(segments, 2, "segments")
        loops = self.connectivity[:, 0] == self.connectivity[:, 1]
        if loops.any():
            raise ValueError(f"segment {int(np.argmax(loops))} joins a node to itself.")
        count = len(self.connectivity)
        self.ea = cast_positive(ea, count, "ea")
        self.rest_length = cast_positive(rest_length, count, "rest_length")
        self.linear_mass = cast_positive(mass, count, "mass", zero=True)

    def __repr__(self) -> str:
        """Return one line."""
        return (
            f"{type(self).__name__}({show_count(len(self.connectivity), 'segment')}, "
            f"{self.rest_length.sum():.3g} m, EA {show_range(self.ea, 'N')})"
        )

    @property
    def _members(self) -> kernel.Members:
        """What the loops take."""
        return kernel.Members(self.connectivity, self.ea, self.rest_length, int(self.sense))

    def energy(self, positions: Floats) -> float:
        """Return the stored energy, J."""
        return kernel.find_energy(positions, self._members)

    def add_force(self, positions: Floats, force: Floats) -> None:
        """Add the restoring force to ``force`` (n, 3) N."""
        kernel.add_force(positions, self._members, force)

    def blocks(self, positions: Floats, model: StiffnessModel) -> Floats:
        """Return member stiffness matrices (k, 6, 6), N/m."""
        return kernel.find_blocks(positions, self._members, int(model))

    def add_mass(self, positions: Floats, mass: Floats) -> None:
        """Add half of each member's mass to each of its ends, kg."""
        np.add.at(mass, self.connectivity, (self.linear_mass * self.rest_length / 2)[:, None])

    def lengths_and_forces(self, positions: Floats) -> tuple[Floats, Floats]:
        """Return length (k,) m and axial force (k,) N, tension positive."""
        return kernel.find_lengths(positions, self._members)
