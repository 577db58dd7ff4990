"""One cord that runs freely through many nodes and so has one tension."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from .element import Element, Floats, Integers, StiffnessColumn, StiffnessModel, cast_nodes, cast_positive
from .words import show_count

_COLLAPSED = 1e-7  # length of a piece over the rest length of the cord


class SlidingCableResult(NamedTuple):
    """Tension, N, total length, m, and length (p - 1,) m of each piece between nodes."""

    tension: float
    length: float
    pieces: Floats

    def __repr__(self) -> str:
        """Return one line."""
        return (
            f"SlidingCableResult(tension {self.tension:.3g} N, {self.length:.3g} m, "
            f"{show_count(len(self.pieces), 'piece')})"
        )


class SlidingCable(Element):
    r"""Frictionless cord along a path of nodes, free to slide at all but its two ends.

    Energy :math:`EA\,(\sum l_i - L_0)^2/(2L_0)` while longer than the rest length, else none; tension
    :math:`T = EA\,(\sum l_i - L_0)/L_0` everywhere.

    Parameters
    ----------
    path : (p,) int
        Nodes in order, two or more.
    ea : float
        Axial stiffness, N.
    rest_length : float
        Unstressed length of the whole cord, m.
    mass : float
        kg per metre of rest length. Half of each piece's share, by its length where the structure
        stands first, rests on each of its nodes and stays there.

    Raises
    ------
    ValueError
        For a path shorter than two nodes, one that stays on a node, or numbers that are not positive.

    Notes
    -----
    Friction in the channel is left out. Where sliding would gather all cord on one side, two nodes of
    the path run together: there is no such equilibrium and the solver says so.

    Examples
    --------
    >>> cord = SlidingCable([0, 1, 2], ea=20e3, rest_length=2.0)
    >>> round(cord.result(np.array([[0, 0, 0], [0.5, 0, 0], [2.02, 0, 0]], float)).tension, 6)
    200.0
    """

    def __init__(self, path: object, ea: float, rest_length: float, *, mass: float = 0.0) -> None:
        self.path = cast_nodes(path, None, "path")
        if len(self.path) < 2 or (self.path[1:] == self.path[:-1]).any():
            raise ValueError(f"path needs two or more nodes, no two in a row the same, got {self.path.tolist()}.")
        self.connectivity = np.stack([self.path[:-1], self.path[1:]], axis=1)
        self.ea = float(cast_positive(ea, 1, "ea")[0])
        self.rest_length = float(cast_positive(rest_length, 1, "rest_length")[0])
        self.linear_mass = float(cast_positive(mass, 1, "mass", zero=True)[0])

    def __repr__(self) -> str:
        """Return one line."""
        return f"SlidingCable({len(self.path)} nodes, {self.rest_length:.3g} m, EA {self.ea:.3g} N)"

    def _measure(self, positions: Floats) -> tuple[float, Floats]:
        """Return tension and piece lengths."""
        pieces = np.linalg.norm(np.diff(positions[self.path], axis=0), axis=1)
        stretch = float(pieces.sum()) - self.rest_length
        return max(self.ea * stretch / self.rest_length, 0.0), pieces

    def _gradient(self, positions: Floats) -> Floats:
        """Return the change of total length per displacement of each node of the path (p, 3)."""
        steps = np.diff(positions[self.path], axis=0)
        lengths = np.linalg.norm(steps, axis=1, keepdims=True)
        units = np.divide(steps, lengths, out=np.zeros_like(steps), where=lengths > 0)
        gradient = np.zeros((len(self.path), 3))
        gradient[:-1] -= units
        gradient[1:] += units
        return gradient

    def energy(self, positions: Floats) -> float:
        """Return the stored energy, J."""
        tension, _ = self._measure(positions)
        return 0.5 * tension**2 * self.rest_length / self.ea

    def add_force(self, positions: Floats, force: Floats) -> None:
        """Add the restoring force to ``force`` (n, 3) N."""
        tension, _ = self._measure(positions)
        np.subtract.at(force, self.path, tension * self._gradient(positions))

    def blocks(self, positions: Floats, model: StiffnessModel) -> Floats:
        """Return the lateral stiffness of each piece, T/l (1 - n n^T), as matrices (p - 1, 6, 6), N/m."""
        tension, pieces = self._measure(positions)
        safe = np.maximum(pieces, 1e-9 * self.rest_length)  # a piece of no length has no direction
        units = np.diff(positions[self.path], axis=0) / safe[:, None]
        lateral = (tension / safe)[:, None, None] * (np.eye(3) - units[:, :, None] * units[:, None, :])
        return np.block([[lateral, -lateral], [-lateral, lateral]])

    def columns(self, positions: Floats, model: StiffnessModel) -> Iterator[StiffnessColumn]:
        """Yield the one rank-one stiffness EA/L0 of the whole length."""
        tension, _ = self._measure(positions)
        stiff = tension > 0 or model is StiffnessModel.TAUT
        yield StiffnessColumn(self.path, self._gradient(positions), self.ea / self.rest_length if stiff else 0.0)

    def column_nodes(self) -> list[Integers]:
        """Return the path."""
        return [self.path]

    def has_collapsed(self, positions: Floats) -> bool:
        """Tell whether two neighbouring nodes have run together on the taut cord."""
        tension, pieces = self._measure(positions)
        return tension > 0 and bool(pieces.min() < _COLLAPSED * self.rest_length)

    def add_mass(self, positions: Floats, mass: Floats) -> None:
        """Add half of each piece's share of the mass to each of its nodes, kg."""
        _, pieces = self._measure(positions)
        total = self.linear_mass * self.rest_length
        np.add.at(mass, self.connectivity, (total * pieces / pieces.sum() / 2)[:, None])

    def result(self, positions: Floats) -> SlidingCableResult:
        """Return tension and lengths."""
        tension, pieces = self._measure(positions)
        return SlidingCableResult(tension, float(pieces.sum()), pieces)
