r"""The implicit method: an interior point walk with the factored stiffness.

What makes steps stumble is cloth that turns from taut to wrinkled to slack and back. Its relaxed energy is convex in
the positions, and the turns can be walked round: an element may smooth its energy by :math:`\mu` (``Element.smooth``;
for cloth see ``interior_kernel``, for cords ``cable_kernel``), and the walk follows the minimum of the smooth energy
while :math:`\mu` goes to zero; at last cloth is taken exactly. With the force R that is unbalanced now, the lead Q by
which it would change if nothing moved, the stiffness K and the row sums S of the taut stiffness as fictitious masses
each step solves

.. math:: (K + \sigma S)\,\Delta x = R + Q,

is cut node by node to the step cap and halved until the smooth energy falls. :math:`\sigma` shrinks while full steps
succeed and grows when they have to be shortened. :math:`\mu` falls after a full step that leaves R well below the exact
residual: what is left of that then comes from the smoothing, and goes with its root. K of all but cloth is the exact
second derivative near the end, as long as it points downhill, and its positive semi-definite part before.

It does not fall while a step leads a member too far for its tension to follow (a stray): falling then, a flap has to
find its place in a valley that is narrow already, and takes a hundred steps.

The constants were chosen by the sum of factorisations over 24 hammocks of 700 to 5,300 triangles, spread and lying,
cold and carried over (some 770): mu falling by 0.05 at a time takes 800, by 0.03 a thousand; three times
``_SMOOTH_SHARE`` 790; twice ``_FALL_SHARE`` and ``_FALL_BELOW``, or ten times ``_EXACT_BELOW``, the same within 2 %. So
is a first shift from 1e-6 on, but with 1e-4 the seam of an inflated cushion folds up elsewhere and a person pushed
aside rolls away.

Sources: S. J. Wright, Primal-Dual Interior-Point Methods (1997); S. Boyd and L. Vandenberghe, Convex Optimization
(2004), ch. 11 (when the barrier falls); C. T. Kelley and D. E. Keyes, SIAM J. Numer. Anal. 35 (1998) 508-523
(pseudo-transient continuation); all from memory.
"""

from typing import Any, NamedTuple

import numpy as np

from .assembly import Assembly
from .balance import Balance
from .element import Floats, StiffnessModel
from .limits import Limits
from .outcome import Reason

_SHIFT_START, _SHIFT_LEAST, _SHIFT_MOST = 1e-2, 1e-13, 1e3
_SHIFT_SHARE = 1e-2  # of the residual: first shift where little is out of balance
_EXACT_BELOW = 0.05  # residual from which the exact stiffness is tried
_SHORTEST = 1e-4  # of a full step
_PATIENCE = 12  # steps refused in a row

_SMOOTH_SHARE = 6e-3  # of load over size, N/m: what mu is at a residual of 1, with the square of which it goes
_SMOOTH_FOLLOWING = 1e-2  # of that where loads follow: not convex then, and much smoothing may fold a seam elsewhere
_SMOOTH_FROM = 0.3  # residual of a start that is as good as none
_SMOOTH_LEAST = 1e-13  # of that: less smoothing is lost in rounding, and cloth is taken exactly
_FALL = 0.1  # of mu
_FALL_SHARE, _FALL_BELOW = 0.3, 0.05  # of the exact residual, and residual, that a step must reach before


def walk_implicit(balance: Balance, positions: Floats, limits: Limits) -> tuple[Floats, Reason]:
    """Return where the implicit method got to and why it stopped."""
    walk = _Walk(balance, positions, limits)
    while True:
        reason = walk.find_end()
        if reason is not None:
            return walk.place.positions, reason
        walk.step()


class _Place(NamedTuple):
    """Somewhere on the walk."""

    positions: Floats  # (n, 3) m
    energy: float  # smooth, J
    plain: Floats  # (n, 3) load and force of what has nothing to smooth, N
    force: Floats  # (n, 3) unbalanced, N
    memory: list[Any]  # of each term
    strays: int  # members whose memory could not follow


class _Walk:
    """Where the walk stands, and how it takes one step."""

    def __init__(self, balance: Balance, positions: Floats, limits: Limits) -> None:
        self.balance, self.limits, self.structure = balance, limits, balance.structure
        self.assembly = Assembly(self.structure)
        bound = self.structure.stiffness_bound(positions)
        self.bound = np.where(bound > 0, bound, bound.max())
        self.model = StiffnessModel.POSITIVE
        self.refused, self.full = 0, False
        self.begun = balance.iterations
        self.residual = balance.residual(positions, self.structure.unbalanced(positions))
        load = self.structure.applied(positions) * self.structure.free
        follows = not np.array_equal(load, self.structure.load * self.structure.free)
        self.shift = min(_SHIFT_START, _SHIFT_SHARE * self.residual)
        self.unit = self._find_unit(positions, load) * (_SMOOTH_FOLLOWING if follows else 1.0)
        mu = self.unit * min(self.residual, _SMOOTH_FROM) ** 2
        self.mu = mu if mu >= _SMOOTH_LEAST * self.unit else 0.0
        self.place = self._look(positions, [None] * len(self.structure.terms))

    def _find_unit(self, positions: Floats, load: Floats) -> float:
        """Return what mu is at a residual of 1, N/m, from a load (n, 3) N, or from the reactions if there is none."""
        if not load.any():
            load = self.structure.unbalanced(positions) * ~self.structure.free
        return _SMOOTH_SHARE * float(np.linalg.norm(load, axis=1).sum()) / self.balance.size

    def _measure(self, force: Floats) -> float:
        """Return the residual of an unbalanced force (n, 3)."""
        return self.balance.residual(self.place.positions, force)

    def _look(self, positions: Floats, memory: list[Any]) -> _Place:
        """Return what is found at ``positions`` with what was remembered somewhere else."""
        plain, smoothed = self.structure.load.copy(), np.zeros_like(positions)
        energy = -float(np.vdot(self.structure.load, positions - self.structure.positions))
        found = [
            term.smooth(positions, self.mu, before, smoothed if term.smooths else plain)
            for term, before in zip(self.structure.terms, memory, strict=True)
        ]
        energy += sum(each.energy for each in found)
        memory, strays = [each.memory for each in found], sum(each.strays for each in found)
        return _Place(positions, energy, plain, plain + smoothed, memory, strays)

    def _find_residual(self) -> float:
        """Return the residual of the exact force."""
        exact = self.place.plain.copy()
        for term in self.structure.terms:
            if term.smooths:
                term.add_force(self.place.positions, exact)
        return self._measure(exact)

    def find_end(self) -> Reason | None:
        """Return why to stop here, if there is a reason."""
        if self.residual <= self.limits.tolerance:
            return Reason.CONVERGED
        if self.refused > _PATIENCE:
            return Reason.STALLED
        if self.balance.iterations - self.begun >= self.limits.max_iterations:
            return Reason.STEP_LIMIT
        return self.balance.find_trouble(self.place.positions)

    def _lower(self) -> None:
        """Let mu fall if what is out of balance comes from the smoothing."""
        if self.mu == 0.0 or not self.full or self.place.strays:
            return
        left = self._measure(self.place.force)
        if left < min(_FALL_SHARE * self.residual, _FALL_BELOW) or left < self.limits.tolerance / 2:
            self.mu *= _FALL
            if self.mu < _SMOOTH_LEAST * self.unit:
                self.mu = 0.0
                self.place = self._look(self.place.positions, [None] * len(self.place.memory))
            else:
                self.place = self.place._replace(energy=self._look(self.place.positions, self.place.memory).energy)

    def step(self) -> None:
        """Try one step."""
        self._lower()
        here = self.place
        step, lead = self._find_step()
        fraction = 0.0
        if step is not None:
            length = np.linalg.norm(step, axis=1, keepdims=True)
            step *= self.limits.step_cap / np.maximum(length, self.limits.step_cap)
            fraction = self._search_line(step, lead)
        self.balance.count(self.residual, here.energy, "implicit")
        self._adapt(fraction)

    def _find_step(self) -> tuple[Floats | None, Floats]:
        """Return the step (n, 3) m, or None if the stiffness is not positive definite, and the force it answers to."""
        here, lead = self.place, self.place.force.copy()
        blocks = [
            term.linearise(here.positions, self.mu, memory, self.model, lead)
            for term, memory in zip(self.structure.terms, here.memory, strict=True)
        ]
        matrix = self.assembly.matrix(here.positions, self.model, self.shift * self.bound, blocks)
        self.balance.factorisations += 1
        return self.assembly.solve(matrix, lead), lead

    def _adapt(self, fraction: float) -> None:
        """Choose shift and stiffness for the next step from what came of this one."""
        self.full = fraction == 1.0
        if fraction == 0.0:
            self.refused += 1
            self.shift = min(max(self.shift * 10, 1e-8), _SHIFT_MOST)
            self.place = self._look(self.place.positions, [None] * len(self.place.memory))
        else:
            self.refused = 0
            self.shift = max(self.shift * (0.2 if self.full else 2.0), _SHIFT_LEAST)
            self.residual = self._find_residual()
        exact = self.full and self.residual < _EXACT_BELOW
        self.model = StiffnessModel.EXACT if exact else StiffnessModel.POSITIVE

    def _estimate_rounding(self) -> float:
        """Return the change of energy, J, that means nothing: that of its terms and of lengths between far nodes."""
        here = self.place
        work = np.abs(self.structure.load * (here.positions - self.structure.positions)).sum()
        pull = np.abs(here.force).max() * np.abs(here.positions).max() * np.sqrt(len(here.positions))
        return 1e-14 * (abs(here.energy) + float(work)) + 1e-16 * float(pull)

    def _search_line(self, step: Floats, lead: Floats) -> float:
        """Go the largest fraction of ``step`` that lowers the energy and return it; zero if none does."""
        here, slope = self.place, float(np.vdot(step, lead))
        if not slope > 0:
            return 0.0
        rounding = self._estimate_rounding()
        fraction = 1.0
        while fraction > _SHORTEST:
            positions = here.positions + fraction * step
            if not self.structure.forbids(here.positions, positions):
                place = self._look(positions, here.memory)
                lower = place.energy <= here.energy - 1e-4 * fraction * slope + rounding
                if lower and (
                    place.energy < here.energy - rounding or self._measure(place.force) < self._measure(lead)
                ):
                    self.place = place
                    return fraction
            fraction *= 0.5
        return 0.0
