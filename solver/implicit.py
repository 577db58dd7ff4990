r"""The implicit gear: pseudo-transient steps with the factored stiffness.

Each step solves :math:`(K + \mu S)\,\Delta x = R` with the unbalanced force R, the stiffness K and the
row sums S of the taut stiffness as fictitious masses, is cut to the step cap and shortened until the
energy falls. :math:`\mu` shrinks while steps succeed and grows when they have to be shortened. K is the
exact second derivative near the end, as long as it points downhill, and its positive semi-definite part
before. Source: C. T. Kelley and D. E. Keyes, SIAM J. Numer. Anal. 35 (1998) 508-523 (pseudo-transient
continuation; from memory).
"""

from typing import TYPE_CHECKING

import numpy as np

from .assembly import Assembly
from .balance import Balance
from .element import Floats, StiffnessModel
from .outcome import Reason

if TYPE_CHECKING:
    from .relax import Limits

_SHIFT_START, _SHIFT_LEAST, _SHIFT_MOST = 1e-2, 1e-13, 1e3
_SHORTEST = 1e-4  # of a full step
_PATIENCE = 12  # steps refused in a row


def walk_implicit(balance: Balance, positions: Floats, limits: "Limits") -> tuple[Floats, Reason]:
    """Return where the implicit gear got to and why it stopped."""
    structure = balance.structure
    assembly = Assembly(structure)
    bound = structure.stiffness_bound(positions)
    bound = np.where(bound > 0, bound, bound.max())
    shift, refused = _SHIFT_START, 0
    model = StiffnessModel.POSITIVE
    force, energy = structure.unbalanced(positions), structure.energy(positions)
    residual = balance.residual(positions, force)
    while balance.iterations < limits.max_iterations:
        if residual <= limits.tolerance:
            return positions, Reason.CONVERGED
        step = assembly.solve(assembly.matrix(positions, model, shift * bound), force)
        balance.factorisations += 1
        fraction = 0.0
        if step is not None and np.vdot(step, force) > 0:
            step *= min(1.0, limits.step_cap / max(float(np.abs(step).max()), 1e-300))
            fraction, trial = _search_line(balance, positions, step, force, energy, residual)
        balance.count(residual, energy, "implicit")
        if fraction == 0.0:
            refused += 1
            if refused > _PATIENCE:
                return positions, Reason.STALLED
            model = StiffnessModel.POSITIVE
            shift = min(max(shift * 10, 1e-8), _SHIFT_MOST)
            continue
        refused = 0
        positions, force, energy, residual = trial
        trouble = balance.find_trouble(positions)
        if trouble is not None:
            return positions, trouble
        shift = max(shift * (0.2 if fraction == 1.0 else 2.0), _SHIFT_LEAST)
        model = StiffnessModel.EXACT if residual < 0.05 and fraction == 1.0 else StiffnessModel.POSITIVE
    return positions, Reason.STEP_LIMIT


Trial = tuple[Floats, Floats, float, float]  # positions, unbalanced force, energy, residual


def _search_line(
    balance: Balance, positions: Floats, step: Floats, force: Floats, energy: float, residual: float
) -> tuple[float, Trial]:
    """Return the fraction of ``step`` that lowers the energy, zero if none does, and what is found there."""
    structure = balance.structure
    slope = float(np.vdot(step, force))
    rounding = 1e-14 * (abs(energy) + float(np.abs(structure.load * (positions - structure.positions)).sum()))
    fraction = 1.0
    while fraction > _SHORTEST:
        place = positions + fraction * step
        level = structure.energy(place)
        if level <= energy - 1e-4 * fraction * slope + rounding:
            unbalanced = structure.unbalanced(place)
            remaining = balance.residual(place, unbalanced)
            if level < energy - rounding or remaining < residual:
                return fraction, (place, unbalanced, level, remaining)
        fraction *= 0.5
    return 0.0, (positions, force, energy, residual)
