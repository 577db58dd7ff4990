"""Equilibrium of a person held off the middle, as by pushing against the side cords."""

from math import ceil
from typing import NamedTuple

import numpy as np

from ....hammock import LoadCase
from ....hammock.arrays import FloatArray
from ....materials.short_repr import write_repr, write_value
from ....meshing import HammockModel, PushWay, RestraintResult, build_model, check_containment, mesh_hammock, push_aside
from ....meshing.clothing import clothe, grip_cloth
from ....solver import Grips, Reason, State, relax
from ...result import Result

_TOLERANCE = 1e-5
_ROUGH = 1e-4  # residual of what is only passed through: the push at the end is the same to eight digits
_LONGEST = 0.01  # m: in one step of 4 cm a person can be carried past where friction holds
_STEPS, _ROUNDS = 100, 5  # of the solver between checks that the person is still in the cloth, and their number


class ShiftedEquilibrium(NamedTuple):
    """A person held off the middle.

    Parameters
    ----------
    shift : float
        Of the centre of mass to the left of the middle between both side cords, m.
    push : float
        Sideways force needed between person and side cords, N; negative where it keeps the person from rolling.
    work : float
        That the push has done since the middle, J; invalid where there is no equilibrium.
    model : HammockModel
        With the push.
    state : State
        Its equilibrium, if there is one.
    end : str or None
        Why there is none, as the end of a sentence on the person.
    grips : Grips or None
        Where clothing grips the cloth; None on smooth cloth.
    """

    shift: float
    push: float
    work: float
    model: HammockModel
    state: State
    end: str | None
    grips: Grips | None = None

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{write_value(self.shift, 'length')} aside",
            f"push {write_value(self.push, 'force')}",
            self.end or "",
        )


def solve_shifted(
    resting: Result,
    shift: float,
    start: ShiftedEquilibrium | None = None,
    *,
    friction: float = 0.0,
    way: PushWay = PushWay.ROOM,
    longest: float = _LONGEST,
) -> ShiftedEquilibrium:
    """Hold the person of a result off the middle and find the shape again, between the same trees.

    The push acts between the person and the side cords; nothing outside holds anything back, so that the hammock swings
    and turns freely. Along the cords' line it takes no moment from outside either. With friction the way counts:
    clothing sticks where the person lay, without a pull, and the person is moved from there in steps.

    Parameters
    ----------
    resting : Result
        Of the load case lying; with friction on an even mesh, without hot spots.
    shift : float
        To the left of the middle, m; negative to the right.
    start : ShiftedEquilibrium or None
        Start shape, with as much friction; None is the equilibrium of the result.
    friction : float
        Coefficient of clothing on cloth; 0 is smooth.
    way : PushWay
        Along which line the push acts; a start is pushed along the same.
    longest : float
        Such step, m.

    Raises
    ------
    ValueError
        For friction on a mesh with hot spots.
    """
    free = _find_free_model(resting)
    if friction == 0.0:
        return _hold(resting, push_aside(free, shift, way), shift, start)
    if free is not resting.model:
        raise ValueError(
            "friction needs a result without hot spots: clothing grips the nodes of the mesh on which it is pushed. "
            "Solve the design with hot_spots=False."
        )
    held = start
    begun = 0.0 if start is None else start.shift
    steps = max(1, ceil(abs(shift - begun) / longest - 1e-9))
    move: FloatArray | None = None  # in the last step, of all nodes: the next one begins as far beyond
    for step, place in enumerate(np.linspace(begun, shift, steps + 1)[1:], 1):
        grips = grip_cloth(resting.model, resting.state.positions) if held is None else held.grips
        tolerance = _TOLERANCE if step == steps else _ROUGH
        before, clothing = resting.state if held is None else held.state, (grips, friction)
        pushed = push_aside(free, float(place), way)
        held = _hold(resting, pushed, float(place), held, clothing, tolerance=tolerance, move=move)
        move = held.state.positions - before.positions
        if held.end is not None:
            break
    assert held is not None
    return held._replace(shift=shift)


def _find_free_model(resting: Result) -> HammockModel:
    """Return the person in the hammock without a push, on an even mesh."""
    design, size, distance = resting.design, resting.mesh_size, resting.model.tree_distance
    if len(resting.model.mesh.points) == len(mesh_hammock(design.hammock, size).points):
        return resting.model
    return build_model(design.hammock, design.person, size, tree_distance=distance, load=LoadCase.LYING)


def _hold(
    resting: Result,
    pushed: HammockModel,
    shift: float,
    start: ShiftedEquilibrium | None,
    clothing: tuple[Grips | None, float] = (None, 0.0),
    *,
    tolerance: float = _TOLERANCE,
    move: FloatArray | None = None,
) -> ShiftedEquilibrium:
    """Hold the person of a model there, starting from an equilibrium not far off."""
    grips, friction = clothing
    model = pushed if grips is None else clothe(pushed, grips, friction)
    before = (resting.model, resting.state) if start is None else (start.model, start.state)
    place = model.carry_over(before[0], before[1].positions)
    place = place if move is None else place + move  # clothed alone: on smooth cloth it leads too far
    for _ in range(_ROUNDS):
        state = relax(model.structure, start=place, tolerance=tolerance, gear="implicit", max_iterations=_STEPS)
        place = state.positions
        end = check_containment(model, place, arms=False)
        if end is not None or state.reason is not Reason.STEP_LIMIT:
            break
    if end is None and not state.converged:
        end = f"finds no equilibrium ({state.reason})"
    hold: RestraintResult = state[model.elements["side push"]]
    push, work = float(hold.force), state.energy - resting.state.energy
    if grips is not None:  # friction takes work that its energy does not give back
        was = (0.0, 0.0, 0.0) if start is None else (start.shift, start.push, start.work)
        work = was[2] + (push + was[1]) / 2 * (shift - was[0])
        grips = grip_cloth(model, place, grips) if end is None else None
    return ShiftedEquilibrium(shift, push, work, model, state, end, grips)
