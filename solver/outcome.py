"""How a solution ended, and what it found."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, NamedTuple

from .element import Element, Floats
from .words import show_count


class Reason(StrEnum):
    """Why the solver stopped; ``State.message`` says what to do about it."""

    CONVERGED = "converged"
    STEP_LIMIT = "step limit"
    STALLED = "stalled"
    NOT_FINITE = "not finite"
    MECHANISM = "mechanism"
    COLLAPSED = "collapsed"
    INCONSISTENT = "input inconsistent"


ADVICE: Mapping[Reason, str] = {
    Reason.CONVERGED: "Equilibrium found.",
    Reason.STEP_LIMIT: "Not in equilibrium yet: raise max_iterations or start closer to the loaded shape.",
    Reason.STALLED: "No step lowers the energy any more: look for a load without a potential, such as "
    "pressure on a surface with a free rim, or ask for a looser tolerance.",
    Reason.NOT_FINITE: "Numbers overflowed: look for a stiffness or a load that is wrong by orders of magnitude.",
    Reason.MECHANISM: "A part moves away without end: look for nodes that nothing holds in the direction of "
    "their load, or a cord that can run out.",
    Reason.COLLAPSED: "Two neighbouring points of a sliding cable have run together: without friction there is "
    "no equilibrium with both on the cord; join them or let the cord end there.",
    Reason.INCONSISTENT: "A free node carries load but belongs to no element: hold it, attach it or remove its load.",
}


class Progress(NamedTuple):
    """What a listener is told after each step."""

    iteration: int
    residual: float
    energy: float
    gear: str

    def __repr__(self) -> str:
        """Return one line."""
        return f"Progress(step {self.iteration}, {self.gear}, residual {self.residual:.2g}, energy {self.energy:.6g} J)"


@dataclass(frozen=True, repr=False)
class State:
    r"""Outcome of :func:`relax`; ``state[element]`` gives what that element carries.

    Parameters
    ----------
    positions : (n, 3)
        Where the nodes stand, m.
    reactions : (n, 3)
        Force of the supports on the structure in held directions, N; zero elsewhere.
    energy : float
        Total potential energy, J, from where the nodes first stood.
    residual : float
        Norm of the unbalanced force on free directions over the norm of the applied load.
    reason : Reason
        Why the solver stopped; ``message`` says what to do about it.
    iterations : int
        Steps of both methods together.
    factorisations : int
        Sparse factorisations made by the implicit method.
    terms : mapping of int to Element
        The elements, for ``state[element]``.
    rounding : float
        Residual that rounding of the positions may leave, :math:`\epsilon\,|K|\,s / |f|` with the row sums K of the
        stiffness, the size s and the load f; zero where it was not needed.
    """

    positions: Floats
    reactions: Floats
    energy: float
    residual: float
    reason: Reason
    iterations: int
    factorisations: int
    terms: Mapping[int, Element]
    rounding: float = 0.0

    def __repr__(self) -> str:
        """Return one line."""
        return (
            f"State({self.reason}, residual {self.residual:.2g}, {show_count(self.iterations, 'step')}, "
            f"{show_count(len(self.positions), 'node')})"
        )

    @property
    def converged(self) -> bool:
        """Whether equilibrium was found to the tolerance."""
        return self.reason is Reason.CONVERGED

    @property
    def message(self) -> str:
        """One sentence on the outcome and what to do."""
        if self.reason in (Reason.STALLED, Reason.STEP_LIMIT) and self.residual <= self.rounding:
            return (
                f"The residual {self.residual:.1e} is what rounding leaves of forces this stiff, up to "
                f"{self.rounding:.1e}: ask for a looser tolerance, or lower EA where it is higher than the part's."
            )
        return ADVICE[self.reason]

    def __getitem__(self, element: Element) -> Any:  # noqa: ANN401  (each element has its own record)
        """Return what ``element`` of this structure carries."""
        try:
            return self.terms[id(element)].result(self.positions)
        except KeyError:
            raise KeyError(f"this {type(element).__name__} is no element of the solved structure") from None
