"""A person who sits across at one place: what is told of it."""

from math import atan2
from typing import NamedTuple

import numpy as np

from ....hammock import Person
from ....hammock.arrays import FloatArray
from ....hammock.body_segments import list_segments
from ....materials.short_repr import write_repr, write_value
from ....meshing import HammockModel
from ....meshing.sitting_across import cut_edge
from ....solver import ContactResult, State
from ...judging.comfort.gauge import read_gauge
from ...judging.comfort.rim import RimPush, measure_rim
from ...judging.comfort.swing import measure_turn
from ...judging.forces import find_cord_tension


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


def measure_seat(model: HammockModel, state: State, place: float, lean: float, axis: float) -> SeatStage:
    """Return all that is told of a person who sits there."""
    assert model.frame is not None
    assert model.person is not None
    frame, places = model.frame, state.positions
    knees, ankles = (find_middle(model, state, level) for level in ("knee", "ankle"))
    rim = cut_edge(places[model.nodes["left edge"]], knees[0])
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
    :math:`\tan\varphi = s/(g + \rho)`, with s and g how far it is to the left of the middle between both cords along
    the line between them, and below that line.

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
    """Return the coefficient needed, as if all that presses gripped alike; turning counts on the worse half."""
    across, along, turning = (abs(float(state[model.elements[f"{name}hold"]].force)) for name in ("side ", "", "turn "))
    contact: ContactResult = state[model.elements["contact"]]
    return float(np.hypot(across + 2 * turning, along) / np.linalg.norm(contact.push, axis=1).sum())


def find_middle(model: HammockModel, state: State, level: str) -> FloatArray:
    """Return the middle (3,) between the left and the right node of a person's level."""
    return np.asarray(state.positions[model.find_pair(level)].mean(axis=0))
