"""What every element of a structure offers the solver."""

from abc import ABC, abstractmethod
from collections.abc import Iterator
from enum import IntEnum
from math import inf
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]
Bools = NDArray[np.bool_]


class StiffnessModel(IntEnum):
    """Which stiffness an element is asked for."""

    POSITIVE = 0  # positive semi-definite part: every step it gives goes downhill
    EXACT = 1  # second derivative of the energy, which may be indefinite
    TAUT = 2  # as if nothing were slack: the bound that sizes the fictitious masses


class StiffnessColumn(NamedTuple):
    """Rank-one stiffness ``stiffness * gradient (x) gradient`` over many nodes at once."""

    nodes: Integers  # (p,)
    gradient: Floats  # (p, 3), change of length per displacement
    stiffness: float  # N/m

    def __repr__(self) -> str:
        """Return one line."""
        return f"StiffnessColumn({len(self.nodes)} nodes, {self.stiffness:.3g} N/m)"


class Coupling(NamedTuple):
    """Which nodes a stack of stiffness blocks (m, 3k, 3l) couples; one array twice where it is symmetric."""

    rows: Integers  # (m, k)
    cols: Integers  # (m, l)

    def __repr__(self) -> str:
        """Return one line."""
        return f"Coupling({len(self.rows)} members, {self.rows.shape[1]} by {self.cols.shape[1]} nodes)"


class Smoothed(NamedTuple):
    """What an element answers on the way, while its changes of kind are smoothed."""

    energy: float  # J
    memory: Any  # of the element alone
    strays: int  # members that the step led too far for their memory to follow

    def __repr__(self) -> str:
        """Return one line."""
        return f"Smoothed(energy {self.energy:.6g} J, {self.strays} strays)"


class Element(ABC):
    """One kind of member, many of them: a term of the total potential energy.

    Attributes
    ----------
    connectivity : (m, k) int
        Nodes of each member; the blocks of ``blocks`` follow this order.
    smooths : bool
        Whether ``smooth`` changes anything.
    """

    connectivity: Integers
    smooths = False

    @abstractmethod
    def energy(self, positions: Floats) -> float:
        """Return the stored energy, J, at ``positions`` (n, 3) m."""

    @abstractmethod
    def add_force(self, positions: Floats, force: Floats) -> None:
        """Add the restoring force, minus the gradient of the energy, to ``force`` (n, 3) N."""

    @abstractmethod
    def blocks(self, positions: Floats, model: StiffnessModel) -> Floats:
        """Return member stiffness matrices (m, 3k, 3k), N/m, node by node, x y z within a node."""

    @abstractmethod
    def result(self, positions: Floats) -> Any:  # noqa: ANN401  (each kind has its own record)
        """Return what this member carries at ``positions``: the record behind ``state[element]``."""

    @property
    def nodes(self) -> Integers:
        """Return all nodes of this element (some may be named twice)."""
        return self.connectivity.ravel()

    def couplings(self) -> list[Coupling]:
        """Return the couplings of ``stiffness_blocks``: most elements have their members alone."""
        return [Coupling(self.connectivity, self.connectivity)]

    def stiffness_blocks(self, positions: Floats, model: StiffnessModel) -> list[Floats]:
        """Return a stack of blocks, N/m, for each of ``couplings``; an unsymmetric one counts transposed as well."""
        return [self.blocks(positions, model)]

    def smooth(self, positions: Floats, mu: float, before: Any, force: Floats) -> Smoothed:  # noqa: ANN401
        """Add the restoring force to ``force`` (n, 3) N; return the energy and the memory to hand in at the next place.

        Both are smoothed by ``mu``, N/m, in elements that have something to smooth; most have not.
        """
        self.add_force(positions, force)
        return Smoothed(self.energy(positions), None, 0)

    def linearise(
        self,
        positions: Floats,
        mu: float,
        here: Any,  # noqa: ANN401
        model: StiffnessModel,
        lead: Floats,
    ) -> list[Floats]:
        """Return the ``stiffness_blocks`` of what ``smooth`` gave; add how it changes at rest to ``lead`` (n, 3) N."""
        return self.stiffness_blocks(positions, model)

    def longest_step(self) -> float:
        """Return how far a node may move in one explicit step, m; most elements set no limit."""
        return inf

    def forbids(self, before: Floats, after: Floats) -> bool:
        """Tell whether no step may lead from one set of positions to another; most elements let all pass."""
        return False

    def columns(self, positions: Floats, model: StiffnessModel) -> Iterator[StiffnessColumn]:
        """Yield rank-one stiffness that couples many nodes; most elements have none."""
        return iter(())

    def column_nodes(self) -> list[Integers]:
        """Return the nodes of each rank-one column, in the order of ``columns``."""
        return []

    def add_mass(self, positions: Floats, mass: Floats) -> None:  # noqa: B027  (some elements are weightless)
        """Add mass lumped at the nodes, as the structure first stands, to ``mass`` (n,), kg."""

    def add_load(self, positions: Floats, load: Floats) -> None:  # noqa: B027
        """Add what this element counts as applied load to ``load`` (n, 3) N (pressure does)."""

    def has_collapsed(self, positions: Floats) -> bool:
        """Tell whether members have shrunk to nothing, so that their direction is lost; most elements cannot."""
        return False

    def attach(self, positions: Floats) -> "Element":
        """Return this element as it stands in a structure with these first positions."""
        return self

    def add_bound(self, positions: Floats, bound: Floats) -> None:
        """Add to ``bound`` (n,) the largest row sum of the taut stiffness at each node, N/m."""
        for (rows, cols), blocks in zip(
            self.couplings(), self.stiffness_blocks(positions, StiffnessModel.TAUT), strict=True
        ):
            size = np.abs(blocks)
            np.add.at(bound, rows, size.sum(axis=2).reshape(*rows.shape, 3).max(axis=2))
            if rows is not cols:
                np.add.at(bound, cols, size.sum(axis=1).reshape(*cols.shape, 3).max(axis=2))
        for nodes, gradient, stiffness in self.columns(positions, StiffnessModel.TAUT):
            weight = np.abs(gradient)
            np.add.at(bound, nodes, stiffness * weight.max(axis=1) * weight.sum())


def cast_nodes(value: object, width: int | None, name: str) -> Integers:
    """Return ``value`` as a whole-number array (m, width), or (m,) without a width; refuse anything else."""
    nodes = np.asarray(value)
    shape_ok = nodes.ndim == 1 if width is None else nodes.ndim == 2 and nodes.shape[1] == width
    if not shape_ok or nodes.dtype.kind not in "iu" or len(nodes) == 0:
        wanted = "(m,)" if width is None else f"(m, {width})"
        raise ValueError(
            f"{name} must be a non-empty {wanted} array of whole numbers, got {nodes.dtype} {nodes.shape}."
        )
    return nodes.astype(np.int64)


def cast_positive(value: object, count: int, name: str, *, zero: bool = False) -> Floats:
    """Return ``value`` spread over ``count`` members, all finite and positive (or zero where allowed)."""
    numbers = np.asarray(value, dtype=np.float64)
    if numbers.shape not in ((), (count,)):
        raise ValueError(f"{name} must be one number or {count} numbers, got shape {numbers.shape}.")
    good = np.isfinite(numbers) & ((numbers >= 0) if zero else (numbers > 0))
    if not good.all():
        raise ValueError(
            f"{name} must be finite and {'not negative' if zero else 'positive'}, got {numbers[~good].flat[0]}."
        )
    return np.broadcast_to(numbers, (count,)).copy()
