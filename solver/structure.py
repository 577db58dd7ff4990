"""A structure: where nodes stand, what joins them, what is held, what pulls."""

import copy
from collections.abc import Sequence

import numpy as np

from .element import Bools, Element, Floats
from .words import show_count

STANDARD_GRAVITY = (0.0, 0.0, -9.80665)  # m/s2, NIST SP 811


class Structure:
    """Nodes, elements, supports and dead loads, checked once and not changed afterwards.

    Parameters
    ----------
    positions : (n, 3)
        Where the nodes first stand, m.
    elements : sequence of Element
        Terms of the potential energy.
    fixed : (n,) or (n, 3) bool
        Nodes, or single directions of nodes, that are held.
    forces : (n, 3) or None
        Dead loads, N.
    gravity : (3,)
        Acceleration on the elements' mass, m/s2.

    Raises
    ------
    ValueError
        For wrong shapes, numbers that are not finite, node numbers out of range.

    Examples
    --------
    >>> from tautlay.solver import Cable
    >>> line = Structure([[0, 0, 0], [0, 0, -1]], [Cable([[0, 1]], 1e4, 1.0)], fixed=[True, False])
    >>> int(line.free.sum())
    3
    """

    def __init__(
        self,
        positions: object,
        elements: Sequence[Element],
        *,
        fixed: object,
        forces: object = None,
        gravity: Sequence[float] = STANDARD_GRAVITY,
    ) -> None:
        self.positions = _cast_vectors(positions, None, "positions")
        count = len(self.positions)
        self.elements = tuple(elements)
        self.free = ~_cast_mask(fixed, count)
        applied = np.zeros((count, 3)) if forces is None else _cast_vectors(forces, count, "forces")
        self._check_elements(count)
        self.terms = tuple(element.attach(self.positions) for element in self.elements)
        mass = np.zeros(count)
        for term in self.terms:
            term.add_mass(self.positions, mass)
        self.load = applied + mass[:, None] * _cast_gravity(gravity)

    def __repr__(self) -> str:
        """Return one line."""
        return (
            f"Structure({len(self.positions)} nodes, {int(self.free.sum())} free directions, "
            f"{show_count(len(self.elements), 'element')}, load {np.linalg.norm(self.load.sum(axis=0)):.3g} N)"
        )

    def add_element(self, element: Element) -> "Structure":
        """Return this structure with one more element, which weighs nothing.

        Parameters
        ----------
        element : Element
            Such as the friction of a state that was found without it.

        Raises
        ------
        ValueError
            For what is no element or names a node that is not there.
        """
        larger = copy.copy(self)
        larger.elements = (*self.elements, element)
        larger._check_elements(len(self.positions))
        larger.terms = (*self.terms, element.attach(self.positions))
        return larger

    def drop_element(self, element: Element) -> "Structure":
        """Return this structure without an element that weighs nothing.

        Parameters
        ----------
        element : Element
            Such as what held a body until it lies still.

        Raises
        ------
        ValueError
            For one that is not part of it.
        """
        dropped = self.find_term(element)
        smaller = copy.copy(self)
        smaller.elements = tuple(known for known in self.elements if known is not element)
        smaller.terms = tuple(term for term in self.terms if term is not dropped)
        return smaller

    def add_forces(self, forces: object) -> "Structure":
        """Return this structure with more dead loads, such as what is put on it after it was hung.

        Parameters
        ----------
        forces : (n, 3)
            N.

        Raises
        ------
        ValueError
            For a wrong shape, or numbers that are not finite.

        Examples
        --------
        >>> from tautlay.solver import Cable
        >>> line = Structure([[0, 0, 0], [0, 0, -1]], [Cable([[0, 1]], 1e4, 1.0)], fixed=[True, False])
        >>> float(line.add_forces([[0, 0, 0], [0, 0, -5]]).load[1, 2])
        -5.0
        """
        loaded = copy.copy(self)
        loaded.load = self.load + _cast_vectors(forces, len(self.positions), "forces")
        return loaded

    def find_term(self, element: Element) -> Element:
        """Return an element as it stands in this structure.

        Raises
        ------
        ValueError
            For one that is not part of it.
        """
        for known, term in zip(self.elements, self.terms, strict=True):
            if known is element:
                return term
        raise ValueError(f"{element!r} is not an element of this structure.")

    def _check_elements(self, count: int) -> None:
        """Refuse anything that is no element or names a node that is not there."""
        if not self.elements:
            raise ValueError("elements is empty: a structure needs at least one.")
        for place, element in enumerate(self.elements):
            if not isinstance(element, Element):
                raise ValueError(f"elements[{place}] is a {type(element).__name__}, not an element.")
            low, high = element.nodes.min(), element.nodes.max()
            if low < 0 or high >= count:
                raise ValueError(
                    f"elements[{place}] ({type(element).__name__}) names node {low if low < 0 else high}, "
                    f"but nodes run from 0 to {count - 1}."
                )

    def energy(self, positions: Floats) -> float:
        """Return the total potential energy, J: stored in the elements less the work of the dead loads."""
        stored = sum(term.energy(positions) for term in self.terms)
        return float(stored - np.vdot(self.load, positions - self.positions))

    def unbalanced(self, positions: Floats) -> Floats:
        """Return load plus restoring force at every node (n, 3), N; on held directions minus the reaction."""
        force = self.load.copy()
        for term in self.terms:
            term.add_force(positions, force)
        return force

    def applied(self, positions: Floats) -> Floats:
        """Return everything that counts as applied load (n, 3), N: forces, weight and pressure."""
        load = self.load.copy()
        for term in self.terms:
            term.add_load(positions, load)
        return load

    def stiffness_bound(self, positions: Floats) -> Floats:
        """Return the row sums of the taut stiffness (n,), N/m, on which fictitious masses are built."""
        bound = np.zeros(len(self.positions))
        for term in self.terms:
            term.add_bound(positions, bound)
        return bound

    def forbids(self, before: Floats, after: Floats) -> bool:
        """Tell whether an element forbids to go from one set of positions to another in one step."""
        return any(term.forbids(before, after) for term in self.terms)


def _cast_vectors(value: object, count: int | None, name: str) -> Floats:
    """Return finite vectors (n, 3)."""
    vectors = np.array(value, dtype=np.float64)
    if vectors.ndim != 2 or vectors.shape[1] != 3 or (count is not None and len(vectors) != count):
        raise ValueError(f"{name} must have shape ({'n' if count is None else count}, 3), got {vectors.shape}.")
    if not np.isfinite(vectors).all():
        raise ValueError(
            f"{name} holds a number that is not finite at node {int(np.argwhere(~np.isfinite(vectors))[0, 0])}."
        )
    return vectors


def _cast_gravity(value: object) -> Floats:
    """Return a finite vector (3,)."""
    vector = np.asarray(value, dtype=np.float64)
    if vector.shape != (3,) or not np.isfinite(vector).all():
        raise ValueError(f"gravity must be three finite numbers, m/s2, got {value!r}.")
    return vector


def _cast_mask(value: object, count: int) -> Bools:
    """Return which directions are held (n, 3)."""
    mask = np.asarray(value)
    if mask.dtype != np.bool_ or mask.shape not in ((count,), (count, 3)):
        raise ValueError(f"fixed must be bool of shape ({count},) or ({count}, 3), got {mask.dtype} {mask.shape}.")
    return np.array(np.broadcast_to(mask[:, None], (count, 3)) if mask.ndim == 1 else mask)
