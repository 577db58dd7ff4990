"""A person's frame laid into the cloth of a hammock: where it starts, and its elements."""

from math import cos, sin

import numpy as np

from ..solver import Contact, Element, Joint, Rod, Strut
from .arrays import Floats, Integers
from .body_frame import BodyFrame
from .grid import Mesh
from .hammock import Lie, Person
from .lengthwise_hold import LengthwiseHold
from .person_load import PersonLoad
from .transfer import locate

# Pressure per depth of flesh, Pa/m. Judgement, no source: a mean pressure of 1.5 kPa then goes 6 mm deep.
FLESH_STIFFNESS = 250e3
_HOLD_GIVES = 1e-3  # m under the person's whole weight: hardly at all
_SIDE_TURN = np.pi / 2
_EDGE = 0.95  # of the half width: no node starts farther out
_ABOVE = 0.01  # m, between the cloth and the lowest flesh at the start


def lay_frame(frame: BodyFrame, person: Person, mesh: Mesh, cloth: Floats) -> Floats:
    """Return where the nodes of ``frame`` first stand (h, 3): fitted to the cloth (n, 3) and just above it.

    Each node stands over its own place of the flat cloth, as high along the cloth's normal as it lies above
    the bed.
    """
    places = _turn(frame, person)
    flat = places[:, :2] + [person.head_from_bar, person.posture.offset]
    left, right = mesh.outline.left.place(flat[:, 0]), mesh.outline.right.place(flat[:, 0])
    middle, half = (left + right) / 2, (left - right) / 2
    flat[:, 1] = np.clip(flat[:, 1], middle - _EDGE * half, middle + _EDGE * half)
    triangle, shares = locate(mesh, flat)
    corners = cloth[mesh.triangles[triangle]]
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normal /= np.linalg.norm(normal, axis=1, keepdims=True)
    return np.asarray(np.einsum("pa,pak->pk", shares, corners) + (places[:, 2:] + _ABOVE) * normal)


def _turn(frame: BodyFrame, person: Person) -> Floats:
    """Return the frame's places (h, 3) lying as the posture says, the lowest flesh at height zero."""
    places = frame.places.copy()
    if person.posture.lie is Lie.SIDE:  # right side down
        y, z = places[:, 1].copy(), places[:, 2].copy()
        z -= z[frame.index("left hip")]
        places[:, 1] = y * cos(_SIDE_TURN) - z * sin(_SIDE_TURN)
        places[:, 2] = y * sin(_SIDE_TURN) + z * cos(_SIDE_TURN)
        low = (places[frame.capsules, 2] - frame.radii).min()
        places[:, 2] -= low
    return places


def make_occupant(frame: BodyFrame, mesh: Mesh, load: PersonLoad, first: int) -> dict[str, Element]:
    """Return the elements of a person whose nodes are numbered from ``first``.

    Names: "bones", "flesh links", "touching limbs", "joints", "contact", "hold".
    """

    def length(pairs: Integers) -> Floats:
        return np.asarray(np.linalg.norm(frame.places[pairs[:, 1]] - frame.places[pairs[:, 0]], axis=1))

    body = first + np.arange(len(frame.names))
    carried = -load.forces[:, 2]
    cloth = np.flatnonzero(carried > 0)
    weight = carried.sum()
    return {
        "bones": Rod(first + frame.bones, frame.bone_ea, length(frame.bones)),
        "flesh links": Rod(first + frame.links, frame.flesh_ea, length(frame.links)),
        "touching limbs": Strut(first + frame.touching, frame.flesh_ea, frame.gap),
        "joints": Joint(first + frame.joints, frame.joint_stiffness),
        "contact": Contact(mesh.triangles, first + frame.capsules, frame.radii, FLESH_STIFFNESS),
        "hold": LengthwiseHold(
            body, cloth, frame.masses / frame.masses.sum(), carried[cloth] / weight, weight / _HOLD_GIVES
        ),
    }
