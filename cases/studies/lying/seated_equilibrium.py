"""Equilibrium of a person who sits across, seat held at a place, trunk where it falls neither way."""

from math import atan2
from typing import NamedTuple

import numpy as np

from ....hammock import Person
from ....hammock.arrays import FloatArray
from ....hammock.body_segments import list_segments
from ....materials.short_repr import write_repr, write_value
from ....meshing import HammockModel
from ....meshing.clothing import clothe, grip_cloth
from ....meshing.person_load import GRAVITY
from ....meshing.sitting_across import hold_sitter, let_seat_go
from ....solver import ContactResult, State, relax
from ...judging.comfort.gauge import read_gauge
from ...judging.comfort.rim import RimPush, measure_rim
from ...judging.comfort.swing import measure_turn
from ...judging.forces import find_cord_tension

_TOLERANCE = 1e-5
_STEPS = 100  # of the solver: what balances takes 20 to 60
_EVEN = 0.5  # N m: what the trunk takes from outside; its centre of mass is then within 2 mm of where it balances
_TRIES = 6
_ROUNDS, _ROUGH = 3, 1e-4  # of letting go, and the residual of each: from the second on the hips move by tenths of mm
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
    tilt, tilt_by_hand : float
        Of the line between the middles of both side cords, rad, positive where the left one is lower; by
        :func:`tilt_by_hand`.
    centre_behind : float
        How far the centre of mass of the person is behind the left side cord where the legs lie on it, level, m.
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
    tilt_by_hand: float
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
    model: HammockModel, start: FloatArray, place: float, lean: float, axis: float
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
    axis : float
        For :func:`tilt_by_hand`, m.

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
            return SeatedEquilibrium(_measure(held, state, place, lean, axis), held, state), None
        if count and lean != before[0]:
            slope = (moment - before[1]) / (lean - before[0])
        before = (lean, moment)
        lean -= float(np.clip(moment / slope, -_FARTHEST, _FARTHEST))
    return None, "finds no lean at which the trunk balances"


def let_go(seated: SeatedEquilibrium, friction: float) -> float | None:
    """Let the seat go where clothing grips the cloth; return how far the hips then move, m, or None where they slide off.

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
    return float(np.linalg.norm(_place(free, state, "hip") - _place(seated.model, seated.state, "hip")))


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


def _measure(model: HammockModel, state: State, place: float, lean: float, axis: float) -> SeatStage:
    """Return all that is told of a person who sits there."""
    assert model.frame is not None
    assert model.person is not None
    frame, places = model.frame, state.positions
    knees, ankles = (_place(model, state, level) for level in ("knee", "ankle"))
    rim = _cut_edge(model, state, "left", knees[0])
    left, right = (places[model.nodes[f"{side} edge"]].mean(axis=0) for side in ("left", "right"))
    centre = frame.masses @ places[model.body] / frame.masses.sum()
    return SeatStage(
        place=place,
        lean=lean,
        near_cord=float(find_cord_tension(model, state, "left").max()),
        far_cord=float(find_cord_tension(model, state, "right").max()),
        rim=measure_rim(model, state),
        pressure=read_gauge(model, state).largest,
        rim_height=float(rim[2]),
        tilt=measure_turn(model, places).tilt,
        tilt_by_hand=tilt_by_hand(left, right, centre, axis),
        centre_behind=float(rim[1] - centre[1]),
        friction=_find_friction(model, state),
        soles=float(ankles[2]) - find_height(model.person, "shanks"),
    )


def tilt_by_hand(left: FloatArray, right: FloatArray, centre: FloatArray, axis: float) -> float:
    r"""Return the tilt of the side cords under a centre of mass, rad, by hand.

    Nothing outside helps, so that the centre of mass hangs below the axis about which the cords roll, which stays:
    :math:`\tan\varphi = s/(g + \rho)`, with s and g how far it is to the left of the middle between both cords along the
    line between them, and below that line.

    Parameters
    ----------
    left, right : (3,)
        Middles of both side cords, m.
    centre : (3,)
        Centre of mass of the person, m.
    axis : float
        :math:`\rho`: of the axis above the middle between the cords, where nobody is in contact, m.

    Examples
    --------
    >>> from math import degrees
    >>> left, right = np.array([0.0, 0.3, 0.9]), np.array([0.0, -0.3, 0.9])
    >>> round(degrees(tilt_by_hand(left, right, np.array([0.0, 0.1, 0.7]), 0.1)), 1)
    18.4
    """
    across = (left - right)[1:] / np.linalg.norm((left - right)[1:])
    way = (centre - (left + right) / 2)[1:]
    below = float(way[0] * across[1] - way[1] * across[0])
    return atan2(float(way @ across), below + axis)


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
