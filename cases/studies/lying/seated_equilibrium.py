"""Equilibrium of a person who sits across, seat held at a place, trunk where it falls neither way."""

from typing import NamedTuple

import numpy as np

from ....hammock.arrays import FloatArray
from ....meshing import HammockModel
from ....meshing.clothing import clothe, grip_cloth
from ....meshing.person_load import GRAVITY
from ....meshing.sitting_across import cut_edge, hold_sitter, let_seat_go
from ....solver import Contact, State, relax
from .seat_stage import SeatStage, find_middle, measure_seat

_TOLERANCE = 1e-5
_STEPS = 250  # of the solver: what balances takes 20 to 60, a heavy person from the spread shape 105
_EVEN = 0.5  # N m: what the trunk takes from outside; its centre of mass is then within 2 mm of where it balances
_TRIES = 6
_ROUNDS, _ROUGH = 3, 1e-4  # of letting go, and the residual of each: from the second on the hips move by tenths of mm
_FARTHEST = 0.1  # rad of lean in one step


class SeatedEquilibrium(NamedTuple):
    """A person who sits: stage, model with what holds, its equilibrium, and how the trunk's moment goes with the lean.

    The last is the slope, N m/rad.
    """

    stage: SeatStage
    model: HammockModel
    state: State
    slope: float


def balance_sitter(
    model: HammockModel, start: FloatArray, place: float, axis: float, before: SeatedEquilibrium | None = None
) -> tuple[SeatedEquilibrium | None, str | None]:
    """Find the lean at which the trunk takes no moment from outside, and the shape with it.

    Leaning is done by muscles between trunk and legs; the legs are limp. A secant search, its first slope that of the
    weight above the hips, :math:`-m g h`, or what it was before.

    Parameters
    ----------
    model : HammockModel
        From :func:`~tautlay.meshing.sitting_across.seat_person`.
    start : (n, 3)
        Positions to begin from, m.
    place : float
        Of the hips, m.
    axis : float
        For :func:`~tautlay.cases.studies.lying.seat_stage.tilt_by_hand`, m.
    before : SeatedEquilibrium or None
        At a place not far off, from which to begin instead.

    Returns
    -------
    SeatedEquilibrium or None, str or None
        The equilibrium, or why there is none, as the end of a sentence on the person.
    """
    lean, slope = (0.0, -_weigh_trunk(model)) if before is None else (before.stage.lean, before.slope)
    places, last = start if before is None else before.state.positions, (lean, 0.0)
    for count in range(_TRIES):
        held = hold_sitter(model, place, lean)
        state = relax(held.structure, start=places, tolerance=_TOLERANCE, gear="implicit", max_iterations=_STEPS)
        if (end := _find_end(held, state)) is not None:
            return None, end
        places, moment = state.positions, float(state[held.elements["trunk hold"]].force)
        if count and lean != last[0]:
            slope = (moment - last[1]) / (lean - last[0])
        if abs(moment) < _EVEN:
            return SeatedEquilibrium(measure_seat(held, state, place, lean, axis), held, state, slope), None
        last = (lean, moment)
        lean -= float(np.clip(moment / slope, -_FARTHEST, _FARTHEST))
    return None, "finds no lean at which the trunk balances"


def let_go(seated: SeatedEquilibrium, friction: float) -> float | None:
    """Let the seat go where clothing grips; return how far the hips then move, m, or None where they slide off.

    Clothing sticks where the person sits, without a pull, as for who lies; the trunk keeps its lean.

    Parameters
    ----------
    seated : SeatedEquilibrium
        From :func:`balance_sitter`.
    friction : float
        Coefficient, above 0.
    """
    free, places = let_seat_go(seated.model), seated.state.positions
    grips = grip_cloth(free, places)
    for _ in range(_ROUNDS):
        clothed = clothe(free, grips, friction)
        state = relax(clothed.structure, start=places, tolerance=_ROUGH, gear="implicit", max_iterations=_STEPS)
        if not state.converged:
            return None
        places = state.positions
        grips = grip_cloth(free, places, grips)
    return float(np.linalg.norm(find_middle(free, state, "hip") - find_middle(seated.model, seated.state, "hip")))


def _weigh_trunk(model: HammockModel) -> float:
    """Return the weight above the hips times its height above them, N m/rad."""
    assert model.frame is not None
    above = model.frame.places[model.frame.index("left hip"), 0] - model.frame.places[:, 0]
    return float(GRAVITY * model.frame.masses @ np.maximum(above, 0.0))


def _find_end(model: HammockModel, state: State) -> str | None:
    """Return why a person does not sit there, as the end of a sentence."""
    hips = find_middle(model, state, "hip")
    left, right = (cut_edge(state.positions[model.nodes[f"{side} edge"]], hips[0]) for side in ("left", "right"))
    fallen = not state.converged and hips[2] < min(left[2], right[2]) - 1.0
    if hips[1] > left[1] or fallen:
        return "turns over with the hammock, to the front"
    if hips[1] < right[1]:
        return "turns over with the hammock, to the back"
    if not state.converged:
        return f"finds no equilibrium ({state.reason})"
    assert model.frame is not None
    contact = model.elements["contact"]
    assert isinstance(contact, Contact)
    pierced = contact.find_pierced(state.positions)
    parts = [name for name, through in zip(model.frame.flesh, pierced, strict=True) if through and "arm" not in name]
    return f"slips through the cloth: {parts[0]}" if parts else None
