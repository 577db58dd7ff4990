"""The force balance that both methods work on, and the record they leave."""

from collections.abc import Callable

import numpy as np

from .element import Floats
from .outcome import Progress, Reason, State
from .structure import Structure

_RUNAWAY = 30.0  # times the structure's size
_EPSILON = float(np.finfo(np.float64).eps)


class Balance:
    """Measures how far a structure is from equilibrium and counts the steps taken.

    Parameters
    ----------
    structure : Structure
        What is solved.
    size : float
        Largest dimension of the structure, m.
    progress : callable or None
        Listener.
    """

    def __init__(self, structure: Structure, size: float, progress: Callable[[Progress], None] | None) -> None:
        self.structure = structure
        self.size = size
        self.iterations = 0
        self.factorisations = 0
        self._progress = progress

    def residual(self, positions: Floats, unbalanced: Floats) -> float:
        """Return the norm of the unbalanced force on free directions (n, 3) over that of the load."""
        norm, scale = float(np.linalg.norm(unbalanced[self.structure.free])), self._find_scale(positions, unbalanced)
        return norm / scale if scale > 0 else norm

    def _find_scale(self, positions: Floats, unbalanced: Floats) -> float:
        """Return the norm of the load on free directions, N, or of the reactions where no load is applied."""
        free = self.structure.free
        load = float(np.linalg.norm(self.structure.applied(positions)[free]))
        return load if load > 0.0 else float(np.linalg.norm(unbalanced[~free]))

    def _find_rounding(self, positions: Floats, unbalanced: Floats) -> float:
        """Return the residual that the last digit of the positions may leave."""
        scale = self._find_scale(positions, unbalanced)
        stiff = float(np.linalg.norm(self.structure.stiffness_bound(positions)[:, None] * self.structure.free))
        return _EPSILON * stiff * float(np.abs(positions).max()) / scale if scale > 0 else 0.0

    def count(self, residual: float, energy: float, gear: str) -> None:
        """Count a step and tell the listener."""
        self.iterations += 1
        if self._progress is not None:
            self._progress(Progress(self.iterations, residual, energy, gear))

    def find_trouble(self, positions: Floats) -> Reason | None:
        """Return the named reason why going on is senseless, if there is one."""
        if not np.isfinite(positions).all():
            return Reason.NOT_FINITE
        if np.abs(positions - self.structure.positions).max() > _RUNAWAY * self.size:
            return Reason.MECHANISM
        if any(term.has_collapsed(positions) for term in self.structure.terms):
            return Reason.COLLAPSED
        return None

    def has_loose_load(self) -> bool:
        """Tell whether load hangs on a free node that no element touches."""
        touched = np.zeros(len(self.structure.positions), dtype=bool)
        for term in self.structure.terms:
            touched[term.nodes] = True
        loaded = (self.structure.free & (self.structure.load != 0)).any(axis=1)
        return bool((loaded & ~touched).any())

    def outcome(self, positions: Floats, reason: Reason) -> State:
        """Return the record of the solution."""
        structure = self.structure
        unbalanced = structure.unbalanced(positions)
        energy, residual = structure.energy(positions), self.residual(positions, unbalanced)
        if reason is Reason.CONVERGED and not np.isfinite([energy, residual]).all():
            reason = Reason.NOT_FINITE  # forces may balance while a member is stretched beyond all numbers
        stuck = reason in (Reason.STALLED, Reason.STEP_LIMIT)
        terms = {id(given): term for given, term in zip(structure.elements, structure.terms, strict=True)}
        return State(
            positions=positions,
            reactions=np.where(structure.free, 0.0, -unbalanced),
            energy=energy,
            residual=residual,
            reason=reason,
            iterations=self.iterations,
            factorisations=self.factorisations,
            terms=terms,
            rounding=self._find_rounding(positions, unbalanced) if stuck else 0.0,
        )
