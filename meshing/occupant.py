"""A person's frame in the cloth of a hammock: its elements."""

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from ..hammock.person import Person
from ..solver import Contact, Element, Rod, Strut
from .body_frame import BONE_EA, FLESH_EA, SINEW_EA, BodyFrame
from .body_joints import make_hinges
from .lengthwise_restraint import LengthwiseRestraint
from .person_load import PersonLoad

# Pressure at which flesh gives by the whole radius of its limb, Pa, so that pressure per depth is this over
# the radius. Judgement, no source: a mean pressure of 1.5 kPa then goes 5 mm deep into a trunk of 100 mm radius. Half
# or twice as much changes forces in cords and bars by 0.1 %, angles by up to 4 degrees, pressures by 14 to 33 %.
FLESH_MODULUS = 30e3
_SKULL = 10.0  # times as stiff as flesh: judgement
_PILLOW = 50e3  # Pa per metre: a head of 50 N sinks 4 cm into a pillow; judgement
_UNDERNEATH = ("shoulder", "hip", "knee")  # of one who lies on the side
_HOLD_GIVES = 1e-3  # m under the person's whole weight: barely at all


def make_occupant(
    frame: BodyFrame, person: Person, triangles: IntegerArray, load: PersonLoad, first: int
) -> dict[str, Element]:
    """Return the elements of a person on cloth of ``triangles`` (m, 3), whose nodes are numbered from ``first``.

    Names: "bones", "sinews", "flesh links", "touching limbs", "joints", "contact", "hold" (along the hammock)
    and "side hold" (across): of the limbs underneath one who lies on the side, of the whole body of one who lies
    off the middle. Whoever lies on the back in the middle is not held across.
    """
    body = first + np.arange(len(frame.names))
    carried = -load.forces[:, 2]
    cloth = np.flatnonzero(carried > 0)
    shares, stiff = carried[cloth] / carried.sum(), carried.sum() / _HOLD_GIVES
    mass = frame.masses / frame.masses.sum()
    skin = find_stiffness(frame)
    elements: dict[str, Element] = {
        **make_skeleton(frame, first),
        "contact": Contact(triangles, first + frame.capsules, frame.radii, skin),
        "hold": LengthwiseRestraint(body, cloth, mass, shares, 0, stiff),
    }
    if person.posture.on_side:
        low = np.array([frame.index(f"right {name}") for name in _UNDERNEATH])
        weight = frame.masses[low] / frame.masses[low].sum()
        elements["side hold"] = LengthwiseRestraint(first + low, cloth, weight, shares, 1, stiff)
    elif person.posture.offset > 0:
        elements["side hold"] = LengthwiseRestraint(body, cloth, mass, shares, 1, stiff, offset=person.posture.offset)
    return elements


def make_skeleton(frame: BodyFrame, first: int) -> dict[str, Element]:
    """Return what holds a person together whose nodes are numbered from ``first``, by the names of the elements."""

    def length(pairs: IntegerArray) -> FloatArray:
        return np.asarray(np.linalg.norm(frame.places[pairs[:, 1]] - frame.places[pairs[:, 0]], axis=1))

    return {
        "bones": Rod(first + frame.bones, BONE_EA, length(frame.bones)),
        "sinews": Rod(first + frame.sinews, SINEW_EA, length(frame.sinews)),
        "flesh links": Rod(first + frame.links, FLESH_EA, length(frame.links)),
        "touching limbs": Strut(first + frame.touching, FLESH_EA, frame.gap),
        "joints": make_hinges(first + frame.hinges, frame.laws),
    }


def find_stiffness(frame: BodyFrame) -> FloatArray:
    """Return the pressure per depth (c,), Pa/m, of every capsule of a person's flesh."""
    hard = {"head": _SKULL}
    soft = FLESH_MODULUS * np.array([hard.get(name, 1.0) for name in frame.flesh]) / frame.radii.mean(axis=1)
    return np.where(np.array(frame.flesh) == "pillow", _PILLOW, soft)
