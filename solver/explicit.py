r"""The explicit method: fictitious masses, kinetic damping.

Masses :math:`M_i = f\,\Delta t^2 S_i/4` from the row sums S of the taut stiffness, which count each member
at both its ends, are stable for :math:`f \ge 1` (Gershgorin bound). When the new velocity v has less kinetic
energy than the last, the peak lies to first order half-way along the step just made; the motion goes back
there and starts anew.
Source: M. R. Barnes, Form finding and analysis of tension structures by dynamic relaxation,
Int. J. Space Structures 14 (1999) 89-104 (formulae from memory).
"""

import numpy as np

from .balance import Balance
from .element import Floats
from .limits import Limits
from .outcome import Reason
from .structure import Structure

_CHECK_EVERY = 10  # steps between looks for trouble
_HALVINGS = 10  # of a move that would take a body through cloth


def _inverse_mass(balance: Balance, positions: Floats, factor: float) -> Floats:
    """Return 1/M (n, 3) for a time step of one; zero in held directions and where nothing is stiff."""
    bound = balance.structure.stiffness_bound(positions)
    mass = factor * bound / 4
    inverse = np.divide(1.0, mass, out=np.zeros_like(mass), where=mass > 0)
    return np.asarray(inverse[:, None] * balance.structure.free)


def walk_explicit(balance: Balance, positions: Floats, limits: Limits) -> tuple[Floats, Reason]:
    """Return where the explicit method got to and why it stopped."""
    structure = balance.structure
    longest = min([limits.step_cap, *(term.longest_step() for term in structure.terms)])
    inverse = _inverse_mass(balance, positions, limits.mass_factor)
    force = structure.unbalanced(positions)
    velocity = 0.5 * inverse * force
    last = 0.0
    for step in range(limits.max_iterations):
        move = _shorten(structure, positions, _cap(velocity, longest))
        positions = positions + move
        force = structure.unbalanced(positions)
        new = velocity + inverse * force
        kinetic = _kinetic_energy(new, inverse)
        if kinetic < last:
            positions = positions - 0.5 * move
            inverse = _inverse_mass(balance, positions, limits.mass_factor)
            force = structure.unbalanced(positions)
            new = 0.5 * inverse * force
            kinetic = 0.0
        velocity, last = new, kinetic
        if step % _CHECK_EVERY == 0 or kinetic == 0.0:
            trouble = balance.find_trouble(positions)
            if trouble is not None:
                return positions, trouble
        residual = balance.residual(positions, force)
        balance.count(residual, np.nan, "explicit")
        if residual <= limits.tolerance:
            return positions, Reason.CONVERGED
    return positions, Reason.STEP_LIMIT


def _cap(move: Floats, longest: float) -> Floats:
    """Return ``move`` (n, 3), no node farther than ``longest``, m."""
    length = np.linalg.norm(move, axis=1, keepdims=True)
    return np.asarray(move * (longest / np.maximum(length, longest)))


def _shorten(structure: Structure, positions: Floats, move: Floats) -> Floats:
    """Return as much of ``move`` (n, 3) as no element forbids."""
    for _ in range(_HALVINGS):
        if not structure.forbids(positions, positions + move):
            return move
        move = move / 2
    return np.zeros_like(move)


def _kinetic_energy(velocity: Floats, inverse: Floats) -> float:
    """Return half the sum of M v^2, J."""
    moving = inverse > 0
    return 0.5 * float((velocity[moving] ** 2 / inverse[moving]).sum())
