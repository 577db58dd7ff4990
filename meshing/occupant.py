"""A person's frame in the cloth of a hammock: its elements."""

import numpy as np

from ..solver import Contact, Element, Joint, Rod, Strut
from .arrays import Floats, Integers
from .body_frame import BodyFrame
from .grid import Mesh
from .lengthwise_hold import LengthwiseHold
from .person_load import PersonLoad

# Pressure at which flesh gives by the whole radius of its limb, Pa, so that pressure per depth is this over
# the radius. Judgement, no source: a mean pressure of 1.5 kPa then goes 6 mm deep into a trunk of 100 mm radius.
FLESH_MODULUS = 25e3
_HOLD_GIVES = 1e-3  # m under the person's whole weight: hardly at all


def make_occupant(frame: BodyFrame, mesh: Mesh, load: PersonLoad, first: int) -> dict[str, Element]:
    """Return the elements of a person whose nodes are numbered from ``first``.

    Names: "bones", "flesh links", "touching limbs", "joints", "contact", "hold".
    """

    def length(pairs: Integers) -> Floats:
        return np.asarray(np.linalg.norm(frame.places[pairs[:, 1]] - frame.places[pairs[:, 0]], axis=1))

    body = first + np.arange(len(frame.names))
    skin = FLESH_MODULUS / frame.radii.mean(axis=1)
    carried = -load.forces[:, 2]
    cloth = np.flatnonzero(carried > 0)
    weight = carried.sum()
    return {
        "bones": Rod(first + frame.bones, frame.bone_ea, length(frame.bones)),
        "flesh links": Rod(first + frame.links, frame.flesh_ea, length(frame.links)),
        "touching limbs": Strut(first + frame.touching, frame.flesh_ea, frame.gap),
        "joints": Joint(first + frame.joints, frame.joint_stiffness),
        "contact": Contact(mesh.triangles, first + frame.capsules, frame.radii, skin),
        "hold": LengthwiseHold(
            body, cloth, frame.masses / frame.masses.sum(), carried[cloth] / weight, weight / _HOLD_GIVES
        ),
    }
