"""Equilibrium of a person who sits across, seat held at a place, trunk where it falls neither way."""

from math import atan2
from typing import NamedTuple

import numpy as np

from ....hammock import Person
from ....hammock.arrays import FloatArray
from ....hammock.body_segments import list_segments
from ....materials.short_repr import write_repr, write_value
from ....meshing import HammockModel
from ....meshing.person_load import GRAVITY
from ....meshing.sitting_across import find_beside, hold_sitter
from ....solver import ContactResult, State, relax
from ...judging.comfort.gauge import read_gauge
from ...judging.comfort.rim import RimPush, measure_rim
from ...judging.forces import find_cord_tension

_TOLERANCE = 1e-5
_STEPS = 150  # of the solver: what balances takes 20 to 60
_EVEN = 0.5  # N m: what the trunk takes from outside; its centre of mass is then within 2 mm of where it balances
_TRIES = 6
_FARTHEST = 0.1  # rad of lean in one step


class SeatStage(NamedTuple):
    """A person who sits at a place across.

    Parameters
    ----------
    place : float
        Of the hip joints, to the left of the middle between both side cords beside them, along the line between these,
        m.
    lean : float
        Of the trunk backwards against the plumb line, rad.
    near_cord, far_cord : float
        Largest tension of the left and the right side cord, N.
    rim : RimPush
        What the rim presses on the legs.
    pressure : float
        Largest on any square of the gauge, Pa: that of the rim.
    rim_height : float
        Of the left side cord where it lies under the legs, above the ground, m.
    tilt : float
        Of the line between both side cords beside the hips against level, rad, positive where the left one is lower.
    hips_behind, centre_behind : float
        How far hip joints and centre of mass are behind the left side cord, level, m.
    friction : float
        Coefficient that keeps the seat from sliding, if all that presses grips alike.
    soles : float
        Height of the soles above the ground, m.
    """

    place: float
    lean: float
    near_cord: float
    far_cord: float
    rim: RimPush
    pressure: float
    rim_height: float
    tilt: float
    hips_behind: float
    centre_behind: float
    friction: float
    soles: float

    def __repr__(self) -> str:
        place, cord = write_value(self.place, "length"), write_value(self.near_cord, "force")
        return write_repr(self, f"{place} left of the middle", f"left cord {cord}", f"needs {self.friction:.2f}")


class SeatedEquilibrium(NamedTuple):
    """A person who sits: stage, model with what holds, its equilibrium."""

    stage: SeatStage
    model: HammockModel
    state: State


def balance_sitter(
    model: HammockModel, start: FloatArray, place: float, lean: float
) -> tuple[SeatedEquilibrium | None, str | None]:
    """Find the lean at which the trunk takes no moment from outside, and the shape with it.

    Leaning is done by muscles between trunk and legs; the legs are limp. A secant search, its first slope that of the
    weight above the hips, :math:`-m g h`.

    Parameters
    ----------
    model : HammockModel
        From :func:`~tautlay.meshing.sitting_across.seat_person`.
    start : (n, 3)
        Positions to begin from, m.
    place : float
        Of the hips, m.
    lean : float
        To begin with, rad.

    Returns
    -------
    SeatedEquilibrium or None, str or None
        The equilibrium, or why there is none, as the end of a sentence on the person.
    """
    slope, before = -_weigh_trunk(model), (lean, 0.0)
    for count in range(_TRIES):
        held = hold_sitter(model, start, place, lean)
        state = relax(held.structure, start=start, tolerance=_TOLERANCE, gear="implicit", max_iterations=_STEPS)
        if (end := _find_end(held, state)) is not None:
            return None, end
        start, moment = state.positions, float(state[held.elements["trunk hold"]].force)
        if abs(moment) < _EVEN:
            return SeatedEquilibrium(_measure(held, state, place, lean), held, state), None
        if count and lean != before[0]:
            slope = (moment - before[1]) / (lean - before[0])
        before = (lean, moment)
        lean -= float(np.clip(moment / slope, -_FARTHEST, _FARTHEST))
    return None, "finds no lean at which the trunk balances"


def _weigh_trunk(model: HammockModel) -> float:
    """Return the weight above the hips times its height above them, N m/rad."""
    assert model.frame is not None
    above = model.frame.places[model.frame.index("left hip"), 0] - model.frame.places[:, 0]
    return float(GRAVITY * model.frame.masses @ np.maximum(above, 0.0))


def _find_end(model: HammockModel, state: State) -> str | None:
    """Return why a person does not sit there, as the end of a sentence."""
    hips = _place(model, state, "hip")
    left, right = (_cut_edge(model, state, side, hips[0]) for side in ("left", "right"))
    if hips[1] > left[1] or not state.converged and hips[2] < min(left[2], right[2]) - 1.0:
        return "turns over with the hammock, to the front"
    if hips[1] < right[1]:
        return "turns over with the hammock, to the back"
    if not state.converged:
        return f"finds no equilibrium ({state.reason})"
    assert model.frame is not None
    pierced = model.elements["contact"].find_pierced(state.positions)  # type: ignore[attr-defined]
    parts = [name for name, through in zip(model.frame.flesh, pierced, strict=True) if through and "arm" not in name]
    return f"slips through the cloth: {parts[0]}" if parts else None


def _measure(model: HammockModel, state: State, place: float, lean: float) -> SeatStage:
    """Return all that is told of a person who sits there."""
    assert model.frame is not None
    assert model.person is not None
    frame, places = model.frame, state.positions
    hips, knees, ankles = (_place(model, state, level) for level in ("hip", "knee", "ankle"))
    rim = _cut_edge(model, state, "left", knees[0])
    left, right = (places[find_beside(model, places, side)].mean(axis=0) for side in ("left", "right"))
    centre = frame.masses @ places[model.body] / frame.masses.sum()
    return SeatStage(
        place=place,
        lean=lean,
        near_cord=float(find_cord_tension(model, state, "left").max()),
        far_cord=float(find_cord_tension(model, state, "right").max()),
        rim=measure_rim(model, state),
        pressure=read_gauge(model, state).largest,
        rim_height=float(rim[2]),
        tilt=atan2(right[2] - left[2], left[1] - right[1]),
        hips_behind=float(rim[1] - hips[1]),
        centre_behind=float(rim[1] - centre[1]),
        friction=_find_friction(model, state),
        soles=float(ankles[2]) - find_height(model.person, "shanks"),
    )


def find_height(person: Person, segment: str) -> float:
    """Return how high the lower end of a segment is above the soles, m, of a person who stands."""
    return person.stature - next(each.end for each in list_segments(person) if each.name == segment)


def _find_friction(model: HammockModel, state: State) -> float:
    """Return the coefficient needed, as if all that presses gripped alike; turning counts on the half that needs more."""
    across, along, turning = (abs(float(state[model.elements[f"{name}hold"]].force)) for name in ("side ", "", "turn "))
    contact: ContactResult = state[model.elements["contact"]]
    return float(np.hypot(across + 2 * turning, along) / np.linalg.norm(contact.push, axis=1).sum())


def _place(model: HammockModel, state: State, level: str) -> FloatArray:
    """Return the middle (3,) between the left and the right node of a person's level."""
    return np.mean([state.positions[model.nodes[f"person {side} {level}"][0]] for side in ("left", "right")], axis=0)


def _cut_edge(model: HammockModel, state: State, side: str, along: float) -> FloatArray:
    """Return where a side cord passes a place along the hammock (3,)."""
    edge = state.positions[model.nodes[f"{side} edge"]]
    return np.array([along, *(np.interp(along, edge[:, 0], edge[:, axis]) for axis in (1, 2))])
