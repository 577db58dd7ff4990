r"""The implicit method: pseudo-transient steps with the factored stiffness.

Each step solves :math:`(K + \mu S + \nu T)\,\Delta x = R` with the unbalanced force R, the stiffness K, the
row sums S of the taut stiffness as fictitious masses and the taut stiffness T of cloth, is cut node by node to
the step cap and shortened until the energy is below the highest of the last few. :math:`\mu` shrinks while
full steps succeed and grows when they have to be shortened; :math:`\nu` goes with the residual and keeps
slack triangles, which resist nothing, from flying to and fro. K is the exact second derivative near the end, as
long as it points downhill, and its positive semi-definite part before. Cloth that carries little but its own
weight is the last to settle and is often a small part: it is then solved by itself, the rest and all bodies
held, until the rest is what is out of balance. Bodies whose own members are far out of balance are drawn
together first, with the cloth held.

Sources: C. T. Kelley and D. E. Keyes, SIAM J. Numer. Anal. 35 (1998) 508-523 (pseudo-transient
continuation); L. Grippo, F. Lampariello and S. Lucidi, SIAM J. Numer. Anal. 23 (1986) 707-716 (line
search that need not be monotone); X.-C. Cai and D. E. Keyes, SIAM J. Sci. Comput. 24 (2002) 183-200
(solving the stubborn part by itself); D.-H. Li, M. Fukushima, L. Qi and N. Yamashita, Comput. Optim. Appl. 28
(2004) 131-147 (regularised by the size of the gradient); all from memory.
"""

import numpy as np

from .assembly import Assembly
from .balance import Balance
from .element import Bools, Floats, StiffnessModel
from .limits import Limits
from .outcome import Reason
from .structure import Structure

_SHIFT_START, _SHIFT_LEAST, _SHIFT_MOST = 1e-2, 1e-13, 1e3
_SHIFT_SHARE = 1e-2  # of the residual: first shift where little is out of balance
_FIRM_SHARE, _FIRM_MOST = 1e-2, 1e-4  # of the residual, and at most: taut stiffness given to cloth
_EXACT_BELOW = 0.05  # residual from which the exact stiffness is tried
_MEMORY = 5  # energies a step is compared with
_SHORTEST = 1e-4  # of a full step
_PATIENCE = 12  # steps refused in a row

_PART_BELOW = 1.0  # residual from which a stubborn part may be solved by itself
_PART_STEPS = 40
_PART_SHARE = 0.5  # of the residual of the rest, down to which a part is solved
_PART_LARGEST = 0.4  # of all nodes
_PART_RINGS = 5  # rows of nodes around those out of balance

_BODY_RESIDUAL = 1.0  # down to which bodies are drawn together on cloth that is held
_BODY_STEPS = 10


def walk_implicit(balance: Balance, positions: Floats, limits: Limits) -> tuple[Floats, Reason]:
    """Return where the implicit method got to and why it stopped."""
    if balance.structure.far.any():
        positions = _draw_bodies(balance, positions, limits)
    walk = _Walk(balance, balance.structure, positions, limits, _find_bound(balance.structure, positions))
    while True:
        reason = walk.find_end()
        if reason is not None:
            return walk.positions, reason
        walk.step()
        if walk.residual < _PART_BELOW and walk.refused == 0:
            _settle_part(walk)


def _draw_bodies(balance: Balance, positions: Floats, limits: Limits) -> Floats:
    """Return positions in which bodies hold together, the cloth as it stands: stiffly, lest they roll or slide."""
    bodies = balance.structure.restrict(balance.structure.far)
    drawn = _Walk(balance, bodies, positions, limits, _find_bound(bodies, positions))
    for _ in range(_BODY_STEPS):
        if drawn.residual < _BODY_RESIDUAL or drawn.find_end() is not None:
            break
        drawn.shift = _SHIFT_START
        drawn.step()
    return drawn.positions


def _find_bound(structure: Structure, positions: Floats) -> Floats:
    """Return fictitious masses (n,), N/m: the row sums of the taut stiffness, and the largest where there are none."""
    bound = structure.stiffness_bound(positions)
    return np.where(bound > 0, bound, bound.max())


def _settle_part(walk: "_Walk") -> None:
    """Solve by itself the part that is out of balance, if it is small, until the rest is more so."""
    nodes = walk.find_part()
    if nodes is None:
        return
    goal = max(_PART_SHARE * walk.find_residual(~nodes), walk.limits.tolerance / 2)
    if walk.find_residual(nodes) < 2 * goal:
        return
    part = _Walk(walk.balance, walk.structure.restrict(nodes), walk.positions, walk.limits, walk.bound)
    part.shift, part.model = walk.shift, walk.model
    for _ in range(_PART_STEPS):
        if part.find_end() is not None or part.refused > 0 or part.residual < goal:
            break
        part.step()
    walk.stand(part.positions)


class _Walk:
    """Where the walk stands, and how it takes one step."""

    def __init__(
        self, balance: Balance, structure: Structure, positions: Floats, limits: Limits, bound: Floats
    ) -> None:
        self.balance, self.limits, self.structure = balance, limits, structure
        self.assembly = Assembly(structure)
        self.bound = bound
        self.model = StiffnessModel.POSITIVE
        self.refused = 0
        self.begun = balance.iterations
        self.energies: list[float] = []
        self.stand(positions)
        self.shift = min(_SHIFT_START, _SHIFT_SHARE * self.residual)

    def stand(self, positions: Floats) -> None:
        """Take up new positions."""
        self._keep(positions, self.structure.energy(positions), *self._weigh(positions))

    def _weigh(self, positions: Floats) -> tuple[Floats, float]:
        """Return the unbalanced force and the residual at ``positions``."""
        force = self.structure.unbalanced(positions)
        return force, self.balance.residual(positions, force, self.structure.free)

    def _keep(self, positions: Floats, energy: float, force: Floats, residual: float) -> None:
        """Remember where the walk stands."""
        self.positions, self.energy, self.force, self.residual = positions, energy, force, residual
        self.energies = [*self.energies[1 - _MEMORY :], energy]

    def find_end(self) -> Reason | None:
        """Return why to stop here, if there is a reason."""
        if self.residual <= self.limits.tolerance:
            return Reason.CONVERGED
        if self.refused > _PATIENCE:
            return Reason.STALLED
        if self.balance.iterations - self.begun >= self.limits.max_iterations:
            return Reason.STEP_LIMIT
        return self.balance.find_trouble(self.positions)

    def find_part(self) -> Bools | None:
        """Return the nodes (n,) around all that is out of balance, or None if that is no small part."""
        square = ((self.force * self.structure.free) ** 2).sum(axis=1)
        order = np.argsort(square)[::-1]
        needed = int(np.searchsorted(np.cumsum(square[order]), (1 - 1e-4) * square.sum())) + 1
        part = np.zeros(len(square), dtype=bool)
        part[order[:needed]] = True
        for _ in range(_PART_RINGS):
            part = self.structure.grow(part)
        part &= ~self.structure.far  # a body held still makes the part's contact several times cheaper
        return part if part.mean() <= _PART_LARGEST else None

    def find_residual(self, nodes: Bools) -> float:
        """Return the residual on ``nodes`` (n,) alone."""
        return self.balance.residual(self.positions, self.force, self.structure.free & nodes[:, None])

    def step(self) -> None:
        """Try one step."""
        firm = min(_FIRM_SHARE * self.residual, _FIRM_MOST)
        matrix = self.assembly.matrix(self.positions, self.model, self.shift * self.bound, firm)
        step = self.assembly.solve(matrix, self.force)
        self.balance.factorisations += 1
        fraction = 0.0
        if step is not None:
            length = np.linalg.norm(step, axis=1, keepdims=True)
            step *= self.limits.step_cap / np.maximum(length, self.limits.step_cap)
            fraction = self._search_line(step)
        self.balance.count(self.residual, self.energy, "implicit")
        self._adapt(fraction)

    def _adapt(self, fraction: float) -> None:
        """Choose shift and stiffness for the next step from what came of this one."""
        full = fraction == 1.0
        if fraction == 0.0:
            self.refused += 1
            self.shift = min(max(self.shift * 10, 1e-8), _SHIFT_MOST)
        else:
            self.refused = 0
            self.shift = max(self.shift * (0.2 if full else 2.0), _SHIFT_LEAST)
        exact = full and self.residual < _EXACT_BELOW
        self.model = StiffnessModel.EXACT if exact else StiffnessModel.POSITIVE

    def _estimate_rounding(self) -> float:
        """Return the change of energy, J, that means nothing: that of its terms and of lengths between far nodes."""
        work = np.abs(self.structure.load * (self.positions - self.structure.positions)).sum()
        pull = np.abs(self.force).max() * np.abs(self.positions).max() * np.sqrt(len(self.positions))
        return 1e-14 * (abs(self.energy) + float(work)) + 1e-16 * float(pull)

    def _search_line(self, step: Floats) -> float:
        """Go the largest fraction of ``step`` that lowers the energy and return it; zero if none does."""
        slope = float(np.vdot(step, self.force))
        if not slope > 0:
            return 0.0
        rounding = self._estimate_rounding()
        limit = max(self.energies)
        fraction = 1.0
        while fraction > _SHORTEST:
            place = self.positions + fraction * step
            energy = self.structure.energy(place)
            lower = energy <= limit - 1e-4 * fraction * slope + rounding
            if lower and not self.structure.forbids(self.positions, place):
                force, residual = self._weigh(place)
                if energy < limit - rounding or residual < self.residual:
                    self._keep(place, energy, force, residual)
                    return fraction
            fraction *= 0.5
        return 0.0
