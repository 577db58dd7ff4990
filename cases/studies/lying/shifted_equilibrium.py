"""Equilibrium of a person held off the middle, as by pushing against the side cords."""

from typing import NamedTuple

from ....hammock import LoadCase
from ....materials.short_repr import write_repr, write_value
from ....meshing import HammockModel, LengthwiseRestraintResult, build_model, check_containment
from ....solver import Reason, State, relax
from ...result import Result

_TOLERANCE = 1e-5
_STEPS, _ROUNDS = 100, 5  # of the solver between checks that the person is still in the cloth, and their number


class ShiftedEquilibrium(NamedTuple):
    """A person held off the middle.

    Parameters
    ----------
    shift : float
        Of the centre of mass to the left of the middle between both side cords, m.
    push : float
        Sideways force needed between person and side cords, N; negative where it keeps the person from rolling.
    model : HammockModel
        With the push.
    state : State
        Its equilibrium, if there is one.
    end : str or None
        Why there is none, as the end of a sentence on the person.
    """

    shift: float
    push: float
    model: HammockModel
    state: State
    end: str | None

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{write_value(self.shift, 'length')} aside",
            f"push {write_value(self.push, 'force')}",
            self.end or "",
        )


def solve_shifted(resting: Result, shift: float, start: ShiftedEquilibrium | None = None) -> ShiftedEquilibrium:
    """Hold the person of a result off the middle and find the shape again, between the same trees.

    The push acts between the person and the side cords; nothing outside holds anything, so that the hammock swings
    and turns freely. Cloth is assumed smooth.

    Parameters
    ----------
    resting : Result
        Of the load case lying.
    shift : float
        To the left of the middle, m.
    start : ShiftedEquilibrium or None
        Start shape; None is the equilibrium of the result.
    """
    design, distance = resting.design, resting.model.tree_distance
    model = build_model(
        design.hammock, design.person, resting.mesh_size, tree_distance=distance, load=LoadCase.LYING, shift=shift
    )
    before = (resting.model, resting.state) if start is None else (start.model, start.state)
    place = model.carry_over(before[0], before[1].positions)
    for _ in range(_ROUNDS):
        state = relax(model.structure, start=place, tolerance=_TOLERANCE, gear="implicit", max_iterations=_STEPS)
        place = state.positions
        end = check_containment(model, place, arms=False)
        if end is not None or state.reason is not Reason.STEP_LIMIT:
            break
    if end is None and not state.converged:
        end = f"finds no equilibrium ({state.reason})"
    hold: LengthwiseRestraintResult = state[model.elements["side push"]]
    return ShiftedEquilibrium(shift, float(hold.force), model, state, end)
