"""A person's frame as one sits: trunk straight, hips and knees at right angles, forearms on the belly.

Muscles keep the trunk straight and the head on it; the legs are all but limp, so that the thighs lie on the cloth as it
comes and the shanks hang. How firmly either does so is judgement, without a source. On ``larch_ridge`` hips and knees
half or twice as firm change what the rim presses by a fifth, the pull of the cord by a fiftieth, and where all turns
over by up to 12 mm; a trunk half or twice as firm changes its lean by up to 3 degrees, and nothing else by more than a
fiftieth.
"""

from collections.abc import Mapping
from dataclasses import replace
from math import radians
from types import MappingProxyType

import numpy as np

from ..hammock.arrays import FloatArray
from ..hammock.person import Arms, Person, Posture
from .body_frame import BodyFrame, make_frame
from .body_joints import HingeLaw, make_hinges, make_shin
from .side_posture import turn_forwards

_SQUARE = radians(90.0)
_LAWS: Mapping[str, HingeLaw] = MappingProxyType({  # by the node in the middle of a hinge
    "neck": HingeLaw((), slope=25.0, across=25.0),
    "chest": HingeLaw((), slope=300.0, across=100.0),
    "waist": HingeLaw((), slope=300.0, across=100.0),
    "hip": HingeLaw((), slope=10.0, across=30.0),
    "knee": HingeLaw((), slope=10.0, across=100.0),
    "calf": make_shin(),
})  # fmt: skip


def make_sitter(person: Person) -> BodyFrame:
    """Return ``person`` as a frame that sits, in the axes of one who lies: hips at rest at right angles.

    Parameters
    ----------
    person : Person
        Whatever the posture says of lying: there is no pillow and no pad.

    Examples
    --------
    >>> from tautlay.hammock import example_person
    >>> frame = make_sitter(example_person())
    >>> hip, knee, ankle = (frame.places[frame.index(f"left {level}")] for level in ("hip", "knee", "ankle"))
    >>> (knee - hip).round(3).tolist()  # thighs forwards
    [0.025, 0.009, 0.436]
    >>> (ankle - knee).round(3).tolist()  # shanks along the trunk
    [0.438, 0.0, -0.028]
    """
    flat = make_frame(replace(person, posture=Posture(arms=Arms.FOLDED, pillow=0.0)))
    places = _bend_legs(flat)
    free = make_hinges(flat.hinges, (HingeLaw((), slope=1.0),) * len(flat.hinges))
    laws = [_LAWS[flat.names[middle].split()[-1]] for middle in flat.hinges[:, 1]]
    angles = free.result(places).angle.tolist()
    held = tuple(law.shift(angle) for law, angle in zip(laws, angles, strict=True))
    return replace(flat, places=places, drawn=_SQUARE, laws=held)


def _bend_legs(flat: BodyFrame) -> FloatArray:
    """Return the places (h, 3) of a body that lies straight, hips and knees bent by a right angle."""
    places = flat.places.copy()
    for side in ("left", "right"):
        hip, knee, calf, ankle = (flat.index(f"{side} {level}") for level in ("hip", "knee", "calf", "ankle"))
        places[knee] = places[hip] + turn_forwards(flat.places[knee] - flat.places[hip], _SQUARE)
        below = flat.places[[calf, ankle]] - flat.places[knee]  # along the trunk, as they lie
        places[[calf, ankle]] = places[knee] + below
    return np.asarray(places)
